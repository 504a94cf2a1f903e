package main

import (
	"fmt"
	"io"
	"time"
)

// table prints the medians and the ratios that the program is held to.
func (b *bench) table(w io.Writer) {
	fmt.Fprintln(w, "| cells | check | floor reads | ratio | report | floor reads and draws | ratio | processor time | ratio | resident | floor | ratio |")
	fmt.Fprintln(w, "|---|---|---|---|---|---|---|---|---|---|---|---|")
	for _, n := range b.sizes {
		check, read := b.results[key("Check", n)], b.results[key("CheckFloor", n)]
		ours, floor := b.results[key("Report", n)], b.results[key("ReportFloor", n)]
		fmt.Fprintf(w, "| %d | %s | %s | %.2f | %s | %s | %.2f | %s | %.2f | %s | %s | %.2f |\n", n,
			ms(check.wall), ms(read.wall), ratio(check.wall, read.wall),
			ms(ours.wall), ms(floor.wall), ratio(ours.wall, floor.wall),
			ms(ours.cpu), ratio(ours.cpu, floor.cpu),
			mb(ours.peak), mb(floor.peak), ratio(ours.peak, floor.peak))
	}
	fmt.Fprintln(w)
	b.growth(w, "time", func(r result) float64 { return float64(r.wall) })
	b.growth(w, "processor time", func(r result) float64 { return float64(r.cpu) })
	if one, ok := b.results[key("Batch", 1)]; ok {
		fmt.Fprintf(w, "two workers on a batch of %d packages: %.2f times as fast as one\n", batchSize, ratio(one.wall, b.results[key("Batch", 2)].wall))
	}
}

// growth compares what a cell adds to a great tower with what it adds to a
// small one.
func (b *bench) growth(w io.Writer, what string, of func(result) float64) {
	marginal := func(from, to int) (float64, bool) {
		small, ok1 := b.results[key("Report", from)]
		great, ok2 := b.results[key("Report", to)]
		return (of(great) - of(small)) / float64(to-from), ok1 && ok2
	}
	low, ok1 := marginal(12, 100)
	high, ok2 := marginal(100, 500)
	if ok1 && ok2 {
		fmt.Fprintf(w, "%s of one cell more: %s from 12 to 100, %s from 100 to 500: ratio %.2f\n", what,
			ms(time.Duration(low)), ms(time.Duration(high)), high/low)
	}
}

func ratio[N int64 | time.Duration](a, b N) float64 { return float64(a) / max(float64(b), 1) }

func ms(d time.Duration) string { return fmt.Sprintf("%.0f ms", float64(d)/1e6) }

func mb(bytes int64) string { return fmt.Sprintf("%d MB", bytes>>20) }
