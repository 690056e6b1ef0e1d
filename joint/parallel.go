package joint

import (
	"runtime"
	"sync"
)

// parallel calls do for each index below n, as many at a time as the machine has
// processors. A panic in one call is raised again here, where it can be caught.
func parallel(n int, do func(i int)) {
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	panics := make([]any, n)
	var wait sync.WaitGroup
	for i := range n {
		wait.Go(func() {
			slots <- struct{}{}
			defer func() {
				panics[i] = recover()
				<-slots
			}()
			do(i)
		})
	}
	wait.Wait()
	for _, defect := range panics {
		if defect != nil {
			panic(defect)
		}
	}
}
