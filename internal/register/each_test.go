package register

import (
	"context"
	"slices"
	"sync/atomic"
	"testing"
)

func TestEachKeepsTheOrderAndTheBound(t *testing.T) {
	const workers, n = 3, 200
	var items, got []int
	for i := range n {
		items = append(items, i)
	}
	var waiting, most atomic.Int64
	each(context.Background(), workers, items, func(i int) int {
		most.Store(max(most.Load(), waiting.Add(1)))
		return i * i
	}, func(i, square int) {
		waiting.Add(-1)
		if square != i*i {
			t.Errorf("%d came with %d", i, square)
		}
		got = append(got, i)
	})
	if !slices.Equal(items, got) {
		t.Errorf("order: %v", got)
	}
	// In work, done and waiting in order, and the one handed on.
	if most.Load() > 2*workers+2 {
		t.Errorf("%d results at once with %d workers", most.Load(), workers)
	}
}

func TestEachEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	items := make([]int, 10_000)
	taken := 0
	each(ctx, 2, items, func(i int) int { return i }, func(int, int) {
		if taken++; taken == 10 {
			cancel()
		}
	})
	if taken >= len(items) {
		t.Errorf("all %d were taken", taken)
	}
}
