package register

import (
	"context"
	"sync"
)

// each works on all items with some goroutines and takes the results one at a
// time, in the order of the items. Never more results wait than there are
// workers, so that memory does not grow with the number of items. It ends early
// with the context.
func each[T, R any](ctx context.Context, workers int, items []T, work func(T) R, take func(T, R)) {
	type job struct {
		item T
		out  chan R
	}
	todo := make(chan job)
	order := make(chan job, workers)
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for j := range todo {
				j.out <- work(j.item)
			}
		})
	}
	go func() {
		defer close(order)
		defer close(todo)
		for _, item := range items {
			j := job{item, make(chan R, 1)}
			select {
			case <-ctx.Done():
				return
			case order <- j:
			}
			todo <- j
		}
	}()
	for j := range order {
		take(j.item, <-j.out)
	}
	wait.Wait()
}
