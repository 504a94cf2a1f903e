package page

import (
	"math"
	"testing"

	"asleft/internal/plot"
)

// luminance is the relative luminance of a color (WCAG 2.1, definition of relative
// luminance, with the threshold of IEC 61966-2-1).
func luminance(c plot.Tone) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	r, g, b := c.RGB()
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

// contrast is the contrast ratio of two colors (WCAG 2.1, definition of contrast
// ratio).
func contrast(a, b plot.Tone) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestContrastOfWhite holds the formula against the two ends of its range, 1 and 21,
// and against 0x767676 on white, the lightest gray that WCAG's own examples accept
// for text (4.54).
func TestContrastOfWhite(t *testing.T) {
	for _, c := range []struct {
		a, b plot.Tone
		want float64
	}{{0xFFFFFF, 0x000000, 21}, {0xFFFFFF, 0xFFFFFF, 1}, {0x767676, 0xFFFFFF, 4.54}} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%06X on %06X: %.3f, expected %.2f", uint32(c.a), uint32(c.b), got, c.want)
		}
	}
}

// TestTextStandsOut: every color that text is set in has at least 4.5:1 on every
// ground that it can stand on (WCAG 2.1, 1.4.3), and every mark and line that
// says something 3:1 on white (1.4.11).
func TestTextStandsOut(t *testing.T) {
	grounds := map[string]plot.Tone{"white": plot.White, "good": groundGood, "warn": groundWarn, "again": groundAgain, "bad": groundBad,
		"tolerance band": plot.Tint}
	for text, c := range map[string]plot.Tone{"ink": plot.Ink, "muted": plot.Muted, "links": plot.Accent, "alarm": plot.Alarm} {
		for ground, g := range grounds {
			if got := contrast(c, g); got < 4.5 {
				t.Errorf("%s on %s: %.2f:1, expected at least 4.5", text, ground, got)
			}
		}
	}
	if got := contrast(plot.Soft, plot.White); got < 3 {
		t.Errorf("lines of earlier rounds on white: %.2f:1, expected at least 3", got)
	}
}

// TestGroundsDifferInGray: from nothing to outside each ground is darker than the
// one before, so that they differ on a gray print; their bars differ, too.
func TestGroundsDifferInGray(t *testing.T) {
	last := luminance(plot.White)
	for tone := Good; tone <= Bad; tone++ {
		c, ok := ground(tone)
		if !ok {
			t.Fatalf("tone %d has no ground", tone)
		}
		if y := luminance(c); last-y < 0.03 {
			t.Errorf("tone %d: luminance %.3f after %.3f", tone, y, last)
		} else {
			last = y
		}
	}
}
