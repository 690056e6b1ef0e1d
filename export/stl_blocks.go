package export

import (
	"io"
	"runtime"
)

// writeBlocks writes n blocks in order. They are encoded ahead on all cores, a
// few at a time, so that memory does not grow with n. It returns the first error
// of the writer.
func writeBlocks(w io.Writer, n int, encode func(block int, to []byte) []byte) error {
	ahead := runtime.GOMAXPROCS(0) + 1
	queue := make(chan chan []byte, ahead) // blocks in order, each to come
	free := make(chan []byte, ahead+2)
	for range cap(free) {
		free <- nil
	}
	stop := make(chan struct{})
	defer close(stop)
	go func() {
		defer close(queue)
		for block := range n {
			ready := make(chan []byte, 1)
			select {
			case queue <- ready:
			case <-stop:
				return
			}
			buffer := <-free
			go func() { ready <- encode(block, buffer[:0]) }()
		}
	}()
	for ready := range queue {
		block := <-ready
		if _, err := w.Write(block); err != nil {
			return err
		}
		free <- block
	}
	return nil
}
