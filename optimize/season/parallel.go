package season

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// inParallel does work(0), .., work(n-1) on all cores. The pieces must not touch each other's data, so that the
// number of cores changes nothing.
func inParallel(n int, work func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	wg.Wait()
}

// inTurn does work(0), .., work(n-1) on one core.
func inTurn(n int, work func(i int)) {
	for i := range n {
		work(i)
	}
}
