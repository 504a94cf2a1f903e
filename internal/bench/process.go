package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strconv"
	"sync"
	"time"

	"asleft/internal/archive"
)

// bench runs programs and keeps what they took.
type bench struct {
	dir     string
	count   int
	books   [][]string // of each tower measured, in order
	sizes   []int
	results map[string]result // by name
}

// result is what a program took: the median of its runs.
type result struct {
	wall, cpu time.Duration
	peak      int64 // bytes resident
}

func build(program, out string) error {
	b, err := exec.Command("go", "build", "-o", out, program).CombinedOutput()
	if err != nil {
		return fmt.Errorf("build %s: %w\n%s", program, err, b)
	}
	return nil
}

func (b *bench) program(name string) string { return filepath.Join(b.dir, name+".exe") }

// tower measures both programs on one tower, in turn.
func (b *bench) tower(cells int, books [][]byte) error {
	var names []string
	for i, body := range books {
		name := filepath.Join(b.dir, fmt.Sprintf("tower-%d-%d.xlsx", cells, i+1))
		if err := os.WriteFile(name, body, 0o644); err != nil {
			return err
		}
		names = append(names, name)
	}
	pages, err := b.pages(names)
	if err != nil {
		return err
	}
	// A program begins as a copy of this one, and is counted at least as large.
	debug.FreeOSMemory()
	b.books, b.sizes = append(b.books, names), append(b.sizes, cells)
	asleft, floor := b.program("asleft"), b.program("floor")
	with := func(args ...string) []string { return append(args, names...) }
	return b.turns(cells, []job{
		{"Check", asleft, with("check")},
		{"CheckFloor", floor, with()},
		{"Report", asleft, with("report", "-o", b.out("asleft"))},
		{"ReportFloor", floor, with("-pages", strconv.FormatInt(pages, 10), "-o", b.out("floor"))},
	})
}

func (b *bench) out(program string) string { return filepath.Join(b.dir, program+".pdf") }

// pages is how many the package of a tower has.
func (b *bench) pages(books []string) (int64, error) {
	first := job{"Report", b.program("asleft"), append([]string{"report", "-o", b.out("asleft")}, books...)}
	if _, err := first.run(); err != nil {
		return 0, err
	}
	made, err := os.ReadFile(b.out("asleft"))
	if err != nil {
		return 0, err
	}
	r, err := archive.Open(made)
	if err != nil {
		return 0, err
	}
	catalog, err := r.Catalog()
	if err != nil {
		return 0, err
	}
	tree, err := r.Resolve(catalog["Pages"])
	if err != nil {
		return 0, err
	}
	pages, _ := tree.(archive.Dict)
	count, _ := pages["Count"].(int64)
	return count, nil
}

// job is a program to be run.
type job struct {
	name, program string
	args          []string
}

// turns runs jobs in turn, as often as was asked, and keeps the medians.
func (b *bench) turns(cells int, jobs []job) error {
	all := make([][]result, len(jobs))
	for range b.count {
		for i, j := range jobs {
			r, err := j.run()
			if err != nil {
				return err
			}
			fmt.Printf("Benchmark%s/cells=%d 1 %d ns/op %d cpu-ns/op %d peak-bytes\n", j.name, cells, r.wall, r.cpu, r.peak)
			all[i] = append(all[i], r)
		}
	}
	for i, j := range jobs {
		b.results[key(j.name, cells)] = median(all[i])
	}
	return nil
}

func key(name string, cells int) string { return fmt.Sprintf("%s/%d", name, cells) }

// run runs a program. Status 1 is an answer, not a failure.
func (j job) run() (result, error) {
	cmd := exec.Command(j.program, j.args...)
	var said bytes.Buffer
	cmd.Stderr = &said
	start := time.Now()
	err := cmd.Run()
	r := result{wall: time.Since(start)}
	var status *exec.ExitError
	if errors.As(err, &status) && status.ExitCode() == 1 {
		err = nil
	}
	if err != nil {
		return r, fmt.Errorf("%s: %w\n%s", j.name, err, said.Bytes())
	}
	r.cpu = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	r.peak = peak(cmd.ProcessState)
	return r, nil
}

func median(all []result) result {
	middle := func(of func(result) int64) int64 {
		var v []int64
		for _, r := range all {
			v = append(v, of(r))
		}
		slices.Sort(v)
		return v[len(v)/2]
	}
	return result{
		wall: time.Duration(middle(func(r result) int64 { return int64(r.wall) })),
		cpu:  time.Duration(middle(func(r result) int64 { return int64(r.cpu) })),
		peak: middle(func(r result) int64 { return r.peak }),
	}
}

// batchSize is how many packages a batch makes.
const batchSize = 8

// batch makes packages of the 12-cell tower one after the other, each held to
// one processor, and then two at a time.
func (b *bench) batch() error {
	at := slices.Index(b.sizes, 12)
	if at < 0 {
		return nil
	}
	for _, workers := range []int{1, 2} {
		var all []result
		for range b.count {
			start := time.Now()
			if err := b.work(workers, b.books[at]); err != nil {
				return err
			}
			took := time.Since(start)
			fmt.Printf("BenchmarkBatch/workers=%d 1 %d ns/op\n", workers, took)
			all = append(all, result{wall: took})
		}
		b.results[key("Batch", workers)] = median(all)
	}
	return nil
}

func (b *bench) work(workers int, books []string) error {
	numbers := make(chan int)
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			for n := range numbers {
				out := filepath.Join(b.dir, fmt.Sprintf("batch-%d.pdf", n))
				cmd := exec.Command(b.program("asleft"), append([]string{"report", "-o", out}, books...)...)
				cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
				errs[w] = errors.Join(errs[w], cmd.Run())
			}
		})
	}
	for n := range batchSize {
		numbers <- n
	}
	close(numbers)
	wg.Wait()
	return errors.Join(errs...)
}
