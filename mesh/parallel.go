package mesh

import (
	"runtime"
	"sync"
)

// chunks is the number of pieces that long work is cut in: fixed, so that every
// machine does the same.
const chunks = 64

// each calls work for 0 to n-1, on all cores. Calls must not write to one place.
func each(n int, work func(i int)) {
	var group sync.WaitGroup
	tokens := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range n {
		tokens <- struct{}{}
		group.Go(func() {
			defer func() { <-tokens }()
			work(i)
		})
	}
	group.Wait()
}
