package screen_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/screen"
)

// dated is an honest tower of three cells, each read twice, with its dates in
// order: cell n on days 3n+10 and 3n+11 from 8:00 to 8:20.
func dated() *field.Record {
	r := rand.New(rand.NewPCG(6, 1))
	return usual(3, 1).tower(r)
}

func count(n int) field.Count { return field.Count{Value: n, Set: true} }

// say is a question as one line: code, cells, arguments.
func say(q screen.Question) string {
	var b strings.Builder
	b.WriteString(q.Code)
	for _, a := range q.Args {
		b.WriteString(" " + a.Name + "=" + a.Text)
		if a.Number != nil {
			b.WriteString(strconv.Itoa(*a.Number))
		}
	}
	return b.String()
}

func TestDatesAndTimes(t *testing.T) {
	tilt := func(r *field.Record, cell, round int) *field.Head { return &r.Cells[cell-1].Tilt.Rounds[round].Head }
	for _, c := range []struct {
		name string
		edit func(*field.Record)
		want []string
	}{
		{"in order", func(*field.Record) {}, nil},
		{"as found after its due date", func(r *field.Record) { r.Instruments[3].Due = dayOf(18) },
			[]string{"pastdue instrument=L used=2026-01-20 date=2026-01-19"}},
		{"as left after its due date is a reason of the assessment", func(r *field.Record) { r.Instruments[3].Due = dayOf(19) }, nil},
		{"as found before it was calibrated", func(r *field.Record) { r.Instruments[3].Calibrated = dayOf(14) },
			[]string{"uncalibrated instrument=L used=2026-01-14 date=2026-01-15"}},
		{"on the day of calibration", func(r *field.Record) { r.Instruments[3].Calibrated = dayOf(13) }, nil},
		{"due before it was calibrated", func(r *field.Record) {
			r.Instruments = append(r.Instruments, field.Instrument{ID: typed("X"), Calibrated: dayOf(9), Due: dayOf(8)})
		},
			[]string{"duefirst instrument=X date=2026-01-10 due=2026-01-09"}},
		{"as left before as found", func(r *field.Record) { tilt(r, 2, 1).Date = dayOf(15) },
			[]string{"backward cell=2 check=tilt round=asleft date=2026-01-16 08:00 other=asfound otherdate=2026-01-17 08:00"}},
		{"same day, earlier", func(r *field.Record) { tilt(r, 2, 1).Date, tilt(r, 2, 1).Start = dayOf(16), at(400) },
			[]string{"backward cell=2 check=tilt round=asleft date=2026-01-17 06:40 other=asfound otherdate=2026-01-17 08:00"}},
		{"same day, no time", func(r *field.Record) { tilt(r, 2, 1).Date, tilt(r, 2, 1).Start = dayOf(16), field.Clock{} }, nil},
		{"finished first", func(r *field.Record) { tilt(r, 1, 0).Finish = at(470) },
			[]string{"finish cell=1 check=tilt round=asfound start=08:00 finish=07:50"}},
		{"through midnight", func(r *field.Record) { tilt(r, 1, 0).Start, tilt(r, 1, 0).Finish = at(1430), at(20) }, nil},
		{"two cells at once", func(r *field.Record) { h := tilt(r, 3, 0); h.Date, h.Start, h.Finish = dayOf(16), at(499), at(520) },
			[]string{"twoplaces person=Reader 1 date=2026-01-17 cell=2 check=tilt time=08:00–08:20 second=3 othercheck=tilt othertime=08:19–08:40"}},
		{"one after the other", func(r *field.Record) { h := tilt(r, 3, 0); h.Date, h.Start, h.Finish = dayOf(16), at(500), at(520) }, nil},
		{"two people", func(r *field.Record) {
			h := tilt(r, 3, 0)
			h.Date, h.Start, h.Finish, h.ReadBy = dayOf(16), at(499), at(520), typed("Reader 2")
		}, nil},
		{"numbers against times", func(r *field.Record) {
			r.Cells[0].Moves = []field.Move{{Sequence: count(1), Date: dayOf(12), Time: at(600)}, {Sequence: count(2), Date: dayOf(12), Time: at(540)}}
		}, []string{"sequence cell=1 date=2026-01-13 first=1 time=10:00 then=2 othertime=09:00"}},
		{"numbers of two days", func(r *field.Record) {
			r.Cells[0].Moves = []field.Move{{Sequence: count(1), Date: dayOf(11), Time: at(600)}, {Sequence: count(2), Date: dayOf(12), Time: at(540)}}
		}, nil},
		{"issued before the last move", func(r *field.Record) {
			r.Project.IssueDate = dayOf(20)
			r.Cells[1].Moves = []field.Move{{Date: dayOf(21)}}
		}, []string{"issued date=2026-01-21 cell=2 latest=2026-01-22"}},
		{"issued on the last day", func(r *field.Record) { r.Project.IssueDate = dayOf(20) }, nil},
		{"accepted before it was read", func(r *field.Record) {
			r.Deviations = []field.Deviation{{Number: typed("D-1"), Cell: count(1), Check: typed("clearanceall"), Round: typed("asleft"), Date: dayOf(13)}}
		}, []string{"accepted cell=1 number=D-1 date=2026-01-14 read=2026-01-15"}},
		{"accepted on the day", func(r *field.Record) {
			r.Deviations = []field.Deviation{{Number: typed("D-1"), Cell: count(1), Check: typed("tilt"), Round: typed("asleft"), Date: dayOf(14)}}
		}, nil},
	} {
		r := dated()
		c.edit(r)
		var got []string
		for _, q := range screen.Questions(r) {
			got = append(got, say(q))
			if q.Odds != 0 || len(q.At) == 0 {
				t.Errorf("%s: odds %d, at %v", c.name, q.Odds, q.At)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// Cells that were set to one value and read to a coarse mark are the same
// throughout, honestly.
func TestCellsSetAlikeAreNotAsked(t *testing.T) {
	w := usual(6, 1)
	w.mean, w.off, w.tilt, w.mold, w.shape, w.blade, w.cycle, w.pitch, w.noise = 0, 0, 0, 0, 0, 0, 0, 0, 0.1
	if k := found(50, w, func(*rand.Rand, *field.Record) {}, append(alike, screen.SameRound, screen.RoundMarks)); k > 0 {
		t.Errorf("%d towers were asked", k)
	}
}

func TestNoRecordNoQuestion(t *testing.T) {
	if q := screen.Questions(nil); q != nil {
		t.Errorf("%v", q)
	}
	if q := screen.Questions(&field.Record{}); q != nil {
		t.Errorf("%v", q)
	}
}

// TestHoles: missing readings, rounds of other lengths, instruments that nobody
// lists and a step of zero are no reason to stop.
func TestHoles(t *testing.T) {
	for i := range 200 {
		r := rand.New(rand.NewPCG(7, uint64(i)))
		rec := anyWorld(r).tower(r)
		for k := range rec.Cells {
			c := &rec.Cells[k]
			for _, b := range fan[:4] {
				s := series(c, b, 0)
				s.Readings = s.Readings[:r.IntN(len(s.Readings)+1)]
				for j := range s.Readings {
					if r.IntN(3) == 0 {
						s.Readings[j].Value = field.Length{}
					}
				}
			}
		}
		rec.Instruments = rec.Instruments[:r.IntN(len(rec.Instruments)+1)]
		if len(rec.Instruments) > 0 {
			rec.Instruments[0].Resolution.Value = measure.Length(r.IntN(2) - 1)
		}
		rec.Tower.Positions = nil
		screen.Questions(rec)
	}
}

// What comes out follows from the record alone.
func TestSameRecordSameQuestions(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	rec := usual(6, 1).tower(r)
	copyToAll(r, rec)
	copyReturns(r, rec)
	first := screen.Questions(rec)
	if len(first) < 2 {
		t.Fatalf("%d questions", len(first))
	}
	for range 20 {
		again := screen.Questions(rec)
		if len(again) != len(first) {
			t.Fatalf("%d questions, then %d", len(first), len(again))
		}
		for i := range first {
			if say(first[i]) != say(again[i]) || first[i].Odds != again[i].Odds {
				t.Errorf("%s, then %s", say(first[i]), say(again[i]))
			}
		}
	}
}

func BenchmarkQuestions(b *testing.B) {
	for _, n := range []int{6, 24, 100} {
		r := rand.New(rand.NewPCG(9, 1))
		rec := usual(n, 1).tower(r)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				screen.Questions(rec)
			}
		})
	}
}
