package workbook

// Names lists the defined names of a form made to these options, sheet by
// sheet. A form that has been filled may have them elsewhere: the names move
// with the cells.
func Names(o FormOptions) ([]Name, error) {
	o, err := o.complete()
	if err != nil {
		return nil, err
	}
	p, err := newPlan(o)
	if err != nil {
		return nil, err
	}
	return p.names, nil
}
