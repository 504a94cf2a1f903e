package compose

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// zones are the bounds of the vibration zones that a contract may name as limits.
func (b *book) zones() string {
	var all []string
	for _, z := range assess.Zones() {
		var bounds []string
		for _, q := range []measure.Quantity{z.AB, z.BC, z.CD} {
			bounds = append(bounds, q.Value.Format(1))
		}
		all = append(all, b.say("zone.one", "power", b.say("zone.group"+strconv.Itoa(z.Group)), "support", b.say("zone."+z.Support),
			"bounds", strings.Join(bounds, ", ")))
	}
	return strings.Join(all, "; ")
}
