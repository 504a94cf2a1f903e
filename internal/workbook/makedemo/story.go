package main

// A cell's story is told in order: how it stood, what was moved, what was read.

// do logs a move and moves the cell.
func (c *cell) do(m machine, v move) {
	c.moves = append(c.moves, v)
	c.now = m.after(c.now, v)
	if v.motor {
		return
	}
	for _, s := range v.shims {
		c.stacks[s.foot-1] = s.now
	}
}

// shimmed is a move of the gear reducer: what each foot's stack grows by.
func (c *cell) shimmed(rises [4]float64) []shim {
	var all []shim
	for i, r := range rises {
		if r != 0 {
			all = append(all, shim{i + 1, c.stacks[i], c.stacks[i] + r})
		}
	}
	return all
}

// follow moves the motor to where the drive line is straight, in whole steps.
func (c *cell) follow(t trade, step float64, at when, by string) {
	m, stack := t.machine, t.motorStackOf(c.number)
	front, rear := m.straighten(c.now.up, step)
	c.do(m, move{event: "motor shimmed", date: at.day, at: at.at, detail: "to the drive shaft", by: by, motor: true,
		shims: []shim{{1, stack, stack + rear}, {2, stack, stack + front}, {3, stack, stack + front}, {4, stack, stack + rear}}})
	front, rear = m.straighten(c.now.across, step)
	c.do(m, move{event: "motor slid", date: at.day, at: at.after(14).at, detail: "to the drive shaft", by: by, motor: true,
		front: front, rear: rear})
}

// read adds a round of the cell as it stands.
func (c *cell) read(m machine, r round) {
	r.pose, r.line = m.pose(c.now), c.now
	c.rounds = append(c.rounds, r)
}
