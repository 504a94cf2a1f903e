package data

import (
	"asleft/internal/assess"
	"asleft/internal/field"
)

func (e *encoder) check(f *field.Cell, k *assess.Check) Check {
	c := Check{
		Verdict:  string(k.Verdict),
		Before:   string(k.Before),
		Starting: k.Starting,
		Rounds:   Keyed[Round]{},
		Notes:    e.codes(k.Notes),
	}
	if k.Limit != nil {
		c.Limit = join("limits", k.Limit.Check)
	}
	if r := k.StandingRound(); r != nil {
		c.Standing = r.Key
	}
	for i := range k.Rounds {
		r := &k.Rounds[i]
		c.Rounds = append(c.Rounds, Member[Round]{r.Key, e.round(r, typed(f, k.Key, r.Key))})
	}
	c.Overtaken = overtaken(k.Overtaken)
	if k.Deviation != nil {
		c.Deviation = deviationRow(*k.Deviation)
	}
	if k.Waiver != nil {
		c.Waiver = waiverRow(*k.Waiver)
	}
	return c
}

func (e *encoder) round(r *assess.Round, t typedRound) Round {
	head := row{headRow(&r.Head)}
	out := Round{
		Verdict:  string(r.Verdict),
		Expected: r.Expected,
		Found:    r.Found,
		Blocked:  r.Blocked,
		Blade:    r.Blade,
		Head:     head.flag("accepted", t.accepted).done(),
		Results:  Keyed[Result]{},
		Readings: Keyed[Reading]{},
		Return:   t.back,
		Notes:    e.codes(r.Notes),
	}
	out.Margin, out.Deciding = e.maybe(r.Margin), e.maybe(r.Deciding)
	out.Results = append(out.Results, e.results(r.Results)...)
	for i := range r.Items {
		out.Items = append(out.Items, Member[Item]{r.Items[i].Key, e.item(&r.Items[i])})
	}
	for _, p := range r.Points {
		out.Readings = append(out.Readings, Member[Reading]{key(p.Index), e.reading(p, t)})
	}
	return out
}

func (e *encoder) reading(p assess.Point, t typedRound) Reading {
	r := Reading{Verdict: string(p.Verdict), Reason: p.Reason, At: p.At.String(), File: p.At.File}
	if t.ring {
		r.Degrees = degrees(p.Degrees)
	}
	if v, ok := t.values[p.Index]; ok {
		v.At, v.File = "", 0
		r.Read = &v
	}
	if m, ok := t.marks[p.Index]; ok {
		r.Mark = &m
	}
	if p.Found {
		r.Counted = e.amount(p.Value)
	}
	if p.Verdict != "" {
		r.Margin = e.amount(p.Margin)
	}
	r.Deviation, r.Corrected = e.maybe(p.Deviation), e.maybe(p.Corrected)
	return r
}

func (e *encoder) item(i *assess.Item) Item {
	return Item{
		Code:      i.Code,
		Name:      i.Name,
		Verdict:   string(i.Verdict),
		Before:    string(i.Before),
		Deciding:  e.maybe(i.Deciding),
		Margin:    e.maybe(i.Margin),
		Results:   e.results(i.Results),
		Findings:  e.codes(i.Findings),
		Notes:     e.codes(i.Notes),
		Overtaken: overtaken(i.Overtaken),
		At:        i.At.String(),
		File:      i.At.File,
	}
}

func (e *encoder) results(list []assess.Result) Keyed[Result] {
	var out Keyed[Result]
	names := ResultNames(list)
	for i, x := range list {
		out = append(out, Member[Result]{names[i], Result{*e.amount(x.Amount), x.Index}})
	}
	return out
}

// maybe is an amount that may be missing.
func (e *encoder) maybe(a *assess.Amount) *Amount {
	if a == nil {
		return nil
	}
	return e.amount(*a)
}

func overtaken(list []assess.Overtaking) []Overtaking {
	var out []Overtaking
	for _, o := range list {
		out = append(out, Overtaking{o.Event, o.Shown, moveRow(o.Move)})
	}
	return out
}

func (e *encoder) codes(list []assess.Code) []Code {
	var out []Code
	for _, c := range list {
		out = append(out, e.code(c))
	}
	return out
}

func (e *encoder) code(c assess.Code) Code {
	out := Code{Code: c.Key}
	for _, a := range c.Args {
		out.Args = append(out.Args, Member[Arg]{a.Name, e.arg(a)})
	}
	return out
}

func (e *encoder) arg(a assess.Arg) Arg {
	switch {
	case a.Amount != nil:
		return Arg{Amount: e.amount(*a.Amount)}
	case a.Number != nil:
		return Arg{Number: a.Number}
	}
	return Arg{Text: &a.Text}
}

func (e *encoder) reasons(list []assess.Reason) []Reason {
	out := make([]Reason, 0, len(list))
	for _, r := range list {
		out = append(out, Reason{Code: e.code(r.Code), Cell: r.Cell, Check: r.Check})
	}
	return out
}
