package assess

// ReasonOutside begins the keys of all reasons that a check is outside.
const ReasonOutside = "reason.outside."

// Keys of how a check is outside.
const (
	reasonEither      = ReasonOutside + "either"
	reasonOver        = ReasonOutside + "over"
	reasonUnder       = ReasonOutside + "under"
	reasonTooSmall    = ReasonOutside + "toosmall"
	reasonTooLarge    = ReasonOutside + "toolarge"
	reasonTooShort    = ReasonOutside + "tooshort"
	reasonTooLong     = ReasonOutside + "toolong"
	reasonGapSmall    = ReasonOutside + "gapsmall"
	reasonGapLarge    = ReasonOutside + "gaplarge"
	reasonGapUneven   = ReasonOutside + "gapuneven"
	reasonAllSmall    = ReasonOutside + "allsmall"
	reasonAllLarge    = ReasonOutside + "alllarge"
	reasonApart       = ReasonOutside + "apart"
	reasonTips        = ReasonOutside + "tips"
	reasonTilted      = ReasonOutside + "tilted"
	reasonPitchLess   = ReasonOutside + "pitchless"
	reasonPitchMore   = ReasonOutside + "pitchmore"
	reasonPitchUneven = ReasonOutside + "pitchuneven"
)

func outsideReasons() []CodeSpec {
	return []CodeSpec{
		{reasonEither, []string{"value", "over", "limit"}},
		{reasonOver, []string{"value", "over", "limit"}},
		{reasonUnder, []string{"value", "over", "limit"}},
		{reasonTooSmall, []string{"value", "over", "limit"}},
		{reasonTooLarge, []string{"value", "over", "limit"}},
		{reasonTooShort, []string{"value", "over", "limit"}},
		{reasonTooLong, []string{"value", "over", "limit"}},
		{reasonGapSmall, []string{"degrees", "value", "over", "limit", "out", "found", "largest"}},
		{reasonGapLarge, []string{"degrees", "value", "over", "limit", "out", "found", "smallest"}},
		{reasonGapUneven, []string{"smallat", "smallest", "least", "small", "largeat", "largest", "most", "large", "found"}},
		{reasonAllSmall, []string{"degrees", "blade", "value", "over", "limit"}},
		{reasonAllLarge, []string{"degrees", "blade", "value", "over", "limit"}},
		{reasonApart, []string{"value", "over", "limit", "smallest", "smallblade", "largest", "largeblade"}},
		{reasonTips, []string{"value", "over", "limit", "smallest", "smallblade", "largest", "largeblade", "blades"}},
		{reasonTilted, []string{"low", "high", "value", "over", "limit"}},
		{reasonPitchLess, []string{"blade", "value", "over", "limit", "out", "found", "largest"}},
		{reasonPitchMore, []string{"blade", "value", "over", "limit", "out", "found", "smallest"}},
		{reasonPitchUneven, []string{"smallblade", "smallest", "least", "small", "largeblade", "largest", "most", "large", "found"}},
	}
}
