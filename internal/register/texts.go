package register

// texts holds each text once. The towers of a register say the same few hundred
// texts hundreds of thousands of times, each read from a file of its own.
type texts map[string]string

func (t texts) once(s *string) {
	if known, ok := t[*s]; ok {
		*s = known
		return
	}
	t[*s] = *s
}

// tower puts the texts of the checks of a tower in common.
func (t texts) tower(o *Tower) {
	for i := range o.Cells {
		checks := o.Cells[i].Checks
		for n := range checks {
			k := &checks[n]
			t.once(&k.Key)
			t.once(&k.Verdict)
			t.once(&k.First)
			if k.Margin != nil {
				t.once(&k.Margin.Value)
				t.once(&k.Margin.Unit)
			}
		}
	}
}
