package audit

import (
	"math"
	"strings"

	"asleft/internal/archive"
)

// Bounds of what counts as seen. Text of this program has at least 5 points and a
// contrast of 4; a reader sees half of that.
const (
	smallestText  = 3.0
	leastContrast = 2.0
	overlaid      = 0.02 // part of a character that may lie under something
	overprinted   = 0.10 // the same under another character, which touches its neighbors
	background    = 0.98 // part of a character that has to lie on a background
	whole         = 0.90 // part that counts as all of it
)

// Bounds of how often two things are held against each other, on one page and in
// all.
const (
	maxTrials    = 50 << 20
	maxAllTrials = 8 << 30
)

// compareCover looks at every page for text that is there and not seen, or seen
// otherwise than it is read: too small, too pale, cut off, under or over something
// else. What a figure draws over its own labels is the figure's affair.
func (a *audit) compareCover(is *archive.Reader) {
	pages, err := is.Pages()
	if err != nil {
		return // told by others
	}
	ids, figures := owners(is)
	all := 0
	for i := range pages {
		if all > maxAllTrials {
			a.unreadPage(i+1, errManyPaints)
			return
		}
		list, err := is.Paints(i)
		if err != nil {
			a.unreadPage(i+1, err)
			continue
		}
		c := cover{a: a, page: i, sheet: archive.Box{Right: pages[i].Width, Top: pages[i].Height}, list: list, ids: ids, figures: figures}
		for n := range list {
			if list[n].Kind == archive.PaintText {
				c.text(n)
			}
		}
		all += c.trials
		if c.trials > maxTrials {
			a.unreadPage(i+1, errManyPaints)
		}
	}
}

func (a *audit) unreadPage(page int, err error) {
	a.addFinding(Finding{Severity: Differs, Code: CodeUnread, Page: page, Args: []Arg{text("what", "page"), text("fact", err.Error())}})
}

// owners are the path of each run that is a value, and the runs of figures.
func owners(r *archive.Reader) (ids map[archive.Run]string, figures map[archive.Run]bool) {
	ids, figures = map[archive.Run]string{}, map[archive.Run]bool{}
	var walk func(e *archive.Element, id string, figure bool)
	walk = func(e *archive.Element, id string, figure bool) {
		if e.ID != "" {
			id, _, _ = strings.Cut(e.ID, " ") // of several values the first
		}
		figure = figure || e.Role == archive.RoleFigure
		for _, k := range e.Kids {
			switch {
			case k.Run != nil:
				ids[*k.Run], figures[*k.Run] = id, figure
			case k.Element != nil:
				walk(k.Element, id, figure)
			}
		}
	}
	if root, err := r.Structure(); err == nil {
		walk(root, "", false)
	}
	return ids, figures
}

// cover is the looking at one page.
type cover struct {
	a       *audit
	page    int // from 0
	sheet   archive.Box
	list    []archive.Paint
	ids     map[archive.Run]string
	figures map[archive.Run]bool
	trials  int
}

// text looks at one piece of text and tells the first thing that is wrong.
func (c *cover) text(n int) {
	p := &c.list[n]
	switch {
	case p.Clipped:
		c.tell(Differs, CodeHiddenCut, p)
	case !p.Bounds.Within(c.sheet):
		c.tell(Differs, CodeHiddenOutside, p)
	case p.Size < smallestText:
		c.tell(Differs, CodeHiddenSmall, p)
	case p.Run >= 0 && (p.Hollow || p.Leaning):
		c.tell(Differs, CodeHiddenTurned, p)
	default:
		c.others(n)
	}
}

// others holds a piece of text against everything else on the page.
func (c *cover) others(n int) {
	p := &c.list[n]
	ground := make([][3]float64, len(p.Ink))
	for g := range ground {
		ground[g] = [3]float64{1, 1, 1} // paper
	}
	for m := range c.list {
		q := &c.list[m]
		if c.trials++; c.trials > maxTrials {
			return
		}
		if m == n || !p.Bounds.Meets(q.Bounds) {
			continue
		}
		for g, ink := range p.Ink {
			if code := c.against(p, q, ink, m > n, &ground[g]); code != "" {
				c.tell(Differs, code, p)
				return
			}
		}
	}
	for _, under := range ground {
		if contrast(p.Color, under) < leastContrast {
			c.tell(Differs, CodeHiddenPale, p)
			return
		}
	}
}

// against holds one character against another thing, painted later or before; what
// lies under all of it becomes its ground.
func (c *cover) against(p, q *archive.Paint, ink archive.Box, later bool, ground *[3]float64) Code {
	inFigure := c.figures[archive.Run{Page: c.page, MCID: p.Run}]
	own := inFigure && q.Run == p.Run
	c.trials++
	if q.Kind == archive.PaintText {
		if later && !inFigure {
			c.trials += len(q.Ink)
			for _, o := range q.Ink {
				if o.Over(ink) > overprinted {
					return CodeHiddenPrinted
				}
			}
		}
		return ""
	}
	part := q.Covers(ink)
	switch {
	case later && (part > whole || part > overlaid && !own):
		return CodeHiddenCovered
	case later:
	case part >= background && q.Kind == archive.PaintArea:
		*ground = q.Color
	case part > overlaid && !inFigure && p.Run >= 0 && contrast(q.Color, *ground) > 1.5:
		return CodeHiddenCrossed
	}
	return ""
}

func (c *cover) tell(s Severity, code Code, p *archive.Paint) {
	id := c.ids[archive.Run{Page: c.page, MCID: p.Run}]
	f := Finding{Severity: s, Code: code, Page: c.page + 1, Path: id, Args: []Arg{text("printed", p.Text)}}
	if id != "" {
		f.keys = keysOf(id)
	}
	c.a.addFinding(f)
}

// contrast is how far two colors are apart to the eye, from 1 to 21 (WCAG 2.2,
// contrast ratio).
func contrast(a, b [3]float64) float64 {
	x, y := luminance(a)+0.05, luminance(b)+0.05
	return max(x, y) / min(x, y)
}

func luminance(c [3]float64) float64 {
	linear := func(v float64) float64 {
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}
