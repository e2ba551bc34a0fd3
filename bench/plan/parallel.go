package plan

import (
	"context"
	"runtime"
	"sync"

	"golang.org/x/sync/errgroup"
)

// sideBySide calls do for 0 to n-1 on all processors and returns the first
// error. A panic in one of the calls comes out of sideBySide itself, on the
// caller's goroutine, where the program's edge can catch it.
func sideBySide(ctx context.Context, n int, do func(ctx context.Context, i int) error) error {
	var once sync.Once
	var panicked any
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range n {
		group.Go(func() error {
			defer func() {
				if p := recover(); p != nil {
					once.Do(func() { panicked = p })
				}
			}()
			return do(ctx, i)
		})
	}
	err := group.Wait()
	if panicked != nil {
		panic(panicked)
	}
	return err
}
