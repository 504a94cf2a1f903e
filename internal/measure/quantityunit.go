package measure

import (
	"math/big"
	"strings"
)

// A QuantityKind says what can be compared with what. Two units of one kind
// convert exactly; two kinds never compare, even where their dimensions agree:
// a velocity in rms is not a velocity in peak.
type QuantityKind uint8

// The kinds.
const (
	KindNone QuantityKind = iota
	Torque
	Force
	Pressure // and stress
	Temperature
	TemperatureDifference
	Voltage
	Current
	Resistance
	Power
	RotationalSpeed
	Speed
	Frequency
	Mass
	VibrationVelocityRMS
	VibrationVelocityPeak
	VibrationDisplacementRMS
	VibrationDisplacementPeakToPeak
	Percentage
	Time
)

// kindWords is indexed by QuantityKind.
var kindWords = [...]string{
	KindNone: "none", Torque: "torque", Force: "force", Pressure: "pressure",
	Temperature: "temperature", TemperatureDifference: "temperature difference",
	Voltage: "voltage", Current: "current", Resistance: "resistance", Power: "power",
	RotationalSpeed: "rotational speed", Speed: "speed", Frequency: "frequency", Mass: "mass",
	VibrationVelocityRMS:            "vibration velocity, rms",
	VibrationVelocityPeak:           "vibration velocity, peak",
	VibrationDisplacementRMS:        "vibration displacement, rms",
	VibrationDisplacementPeakToPeak: "vibration displacement, peak to peak",
	Percentage:                      "percentage", Time: "time",
}

// String returns the English name, for errors and data.
func (k QuantityKind) String() string {
	if int(k) < len(kindWords) {
		return kindWords[k]
	}
	return kindWords[KindNone]
}

// A QuantityUnit is a unit of one kind. The zero value means none.
type QuantityUnit uint8

// The units, grouped by kind.
const (
	NoUnit QuantityUnit = iota
	PoundFoot
	PoundInch
	NewtonMeter
	PoundForce
	Kip
	Newton
	Kilonewton
	PSI
	KSI
	Pascal
	Kilopascal
	Megapascal
	Bar
	Fahrenheit
	Celsius
	FahrenheitDegrees // a difference
	CelsiusDegrees    // a difference
	Volt
	Kilovolt
	Ampere
	Megohm
	Kilohm
	Ohm
	Gigohm
	Horsepower
	Kilowatt
	Watt
	RPM
	FootPerMinute
	FootPerSecond
	MeterPerSecond
	Hertz
	CyclesPerMinute
	Pound
	Ounce
	Kilogram
	Gram
	InchPerSecondRMS
	MillimeterPerSecondRMS
	InchPerSecondPeak
	MillimeterPerSecondPeak
	MilRMS
	MicrometerRMS
	MilPeakToPeak
	MicrometerPeakToPeak
	Percent
	Hour
	Minute
	Second
)

// The pound-force in newtons: 0.45359237 kg (exact since 1959) times standard
// gravity 9.80665 m/s² (exact, CGPM 1901).
const (
	lbfNum = 45_359_237 * 980_665
	lbfDen = 100_000_000 * 100_000
)

// unitRow describes a unit. A value v in it is (v + shift)·num/den in the base
// unit of its kind.
type unitRow struct {
	kind     QuantityKind
	symbol   string
	num, den int64
	shift    int64
	// spellings are compared after fold, letter case aside. Those of exact
	// are compared with it: 1 Mohm and 1 mohm differ by a billion.
	spellings string
	exact     string
}

// unitRows is indexed by QuantityUnit. The first unit of each kind with
// num = den = 1 is its base. 1 hp = 550 ft·lbf/s (mechanical horsepower).
var unitRows = [...]unitRow{
	NoUnit: {},
	PoundFoot: {Torque, "lbf·ft", lbfNum * 3048, lbfDen * 10_000, 0,
		"ftlb ftlbs ftlbf lbft lbsft lbfft footpound footpounds poundfoot poundfeet", ""},
	PoundInch: {Torque, "lbf·in", lbfNum * 254, lbfDen * 10_000, 0,
		"inlb inlbs inlbf lbin lbsin lbfin inchpound inchpounds poundinch poundinches", ""},
	NewtonMeter: {Torque, "N·m", 1, 1, 0, "nm newtonmeter newtonmeters newtonmetre newtonmetres", ""},
	PoundForce:  {Force, "lbf", lbfNum, lbfDen, 0, "lbf lb lbs pound pounds", ""},
	Kip:         {Force, "kip", lbfNum * 1000, lbfDen, 0, "kip kips", ""},
	Newton:      {Force, "N", 1, 1, 0, "n newton newtons", ""},
	Kilonewton:  {Force, "kN", 1000, 1, 0, "kn", ""},
	PSI:         {Pressure, "psi", lbfNum * 1, lbfDen / 100_000_000 * 64_516, 0, "psi psig lb/in2 lbf/in2", ""},
	KSI:         {Pressure, "ksi", lbfNum * 1000, lbfDen / 100_000_000 * 64_516, 0, "ksi", ""},
	Pascal:      {Pressure, "Pa", 1, 1, 0, "pa", ""},
	Kilopascal:  {Pressure, "kPa", 1000, 1, 0, "kpa", ""},
	Megapascal:  {Pressure, "MPa", 1_000_000, 1, 0, "mpa n/mm2 n/mm²", ""},
	Bar:         {Pressure, "bar", 100_000, 1, 0, "bar bars", ""},
	Fahrenheit:  {Temperature, "°F", 5, 9, -32, "°f f degf degreef degreesf fahrenheit", ""},
	Celsius:     {Temperature, "°C", 1, 1, 0, "°c c degc degreec degreesc celsius", ""},
	FahrenheitDegrees: {TemperatureDifference, "°F", 5, 9, 0,
		"°f f degf degreef degreesf fahrenheit", ""},
	CelsiusDegrees: {TemperatureDifference, "°C", 1, 1, 0, "°c c k degc degreec degreesc celsius", ""},
	Volt:           {Voltage, "V", 1, 1, 0, "v vac volt volts", ""},
	Kilovolt:       {Voltage, "kV", 1000, 1, 0, "kv", ""},
	Ampere:         {Current, "A", 1, 1, 0, "a amp amps ampere amperes", ""},
	Megohm: {Resistance, "MΩ", 1_000_000, 1, 0, "megohm megohms megaohm megaohms meg",
		"MΩ Mohm Mohms MOhm MOhms MOHM MOHMS"},
	Kilohm:          {Resistance, "kΩ", 1000, 1, 0, "kω kohm kohms kilohm kilohms kiloohm kiloohms", ""},
	Ohm:             {Resistance, "Ω", 1, 1, 0, "ω ohm ohms", ""},
	Gigohm:          {Resistance, "GΩ", 1_000_000_000, 1, 0, "gω gohm gohms gigohm gigohms gigaohm gigaohms", ""},
	Horsepower:      {Power, "hp", 55 * 3048 * lbfNum, lbfDen * 1000, 0, "hp horsepower", ""},
	Kilowatt:        {Power, "kW", 1000, 1, 0, "kw", ""},
	Watt:            {Power, "W", 1, 1, 0, "w watt watts", ""},
	RPM:             {RotationalSpeed, "r/min", 1, 1, 0, "rpm r/min rev/min 1/min", ""},
	FootPerMinute:   {Speed, "ft/min", 3048, 600_000, 0, "ft/min fpm", ""},
	FootPerSecond:   {Speed, "ft/s", 3048, 10_000, 0, "ft/s fps", ""},
	MeterPerSecond:  {Speed, "m/s", 1, 1, 0, "m/s", ""},
	Hertz:           {Frequency, "Hz", 1, 1, 0, "hz", ""},
	CyclesPerMinute: {Frequency, "cpm", 1, 60, 0, "cpm", ""},
	Pound:           {Mass, "lb", 45_359_237, 100_000_000, 0, "lb lbs pound pounds", ""},
	Ounce:           {Mass, "oz", 45_359_237, 1_600_000_000, 0, "oz ounce ounces", ""},
	Kilogram:        {Mass, "kg", 1, 1, 0, "kg kilogram kilograms", ""},
	Gram:            {Mass, "g", 1, 1000, 0, "g gram grams", ""},
	InchPerSecondRMS: {VibrationVelocityRMS, "in/s rms", 254, 10, 0,
		"in/s ips in/srms ipsrms in/sec in/secrms", ""},
	MillimeterPerSecondRMS: {VibrationVelocityRMS, "mm/s rms", 1, 1, 0,
		"mm/s mm/srms mm/sec mm/secrms", ""},
	InchPerSecondPeak: {VibrationVelocityPeak, "in/s peak", 254, 10, 0,
		"in/s ips in/speak in/spk ipspeak ipspk in/sec in/secpeak in/secpk", ""},
	MillimeterPerSecondPeak: {VibrationVelocityPeak, "mm/s peak", 1, 1, 0,
		"mm/s mm/speak mm/spk mm/sec mm/secpeak mm/secpk", ""},
	MilRMS:        {VibrationDisplacementRMS, "mil rms", 254, 10, 0, "mil mils thou milrms milsrms", ""},
	MicrometerRMS: {VibrationDisplacementRMS, "µm rms", 1, 1, 0, "µm um micron microns µmrms umrms", ""},
	MilPeakToPeak: {VibrationDisplacementPeakToPeak, "mil p-p", 254, 10, 0,
		"mil mils thou milpp milspp milpkpk milspkpk", ""},
	MicrometerPeakToPeak: {VibrationDisplacementPeakToPeak, "µm p-p", 1, 1, 0,
		"µm um micron microns µmpp umpp µmpkpk umpkpk", ""},
	Percent: {Percentage, "%", 1, 1, 0, "% percent pct", ""},
	Hour:    {Time, "h", 3600, 1, 0, "h hr hrs hour hours", ""},
	Minute:  {Time, "min", 60, 1, 0, "min mins minute minutes", ""},
	Second:  {Time, "s", 1, 1, 0, "s sec secs second seconds", ""},
}

func (u QuantityUnit) row() unitRow {
	if int(u) < len(unitRows) {
		return unitRows[u]
	}
	return unitRows[NoUnit]
}

// Kind returns what the unit measures, KindNone for NoUnit.
func (u QuantityUnit) Kind() QuantityKind { return u.row().kind }

// String returns the symbol: "lbf·ft", "°F", "mm/s rms", or "" for NoUnit.
func (u QuantityUnit) String() string { return u.row().symbol }

// Units returns the units of a kind, in a fixed order.
func (k QuantityKind) Units() []QuantityUnit {
	var units []QuantityUnit
	for u := range unitRows {
		if k != KindNone && unitRows[u].kind == k {
			units = append(units, QuantityUnit(u))
		}
	}
	return units
}

// toBase converts a value in the unit to the base unit of its kind.
func (u QuantityUnit) toBase(v *big.Rat) *big.Rat {
	row := u.row()
	sum := new(big.Rat).Add(v, new(big.Rat).SetInt64(row.shift))
	return sum.Mul(sum, big.NewRat(row.num, row.den))
}

// fromBase is the inverse of toBase.
func (u QuantityUnit) fromBase(base *big.Rat) *big.Rat {
	row := u.row()
	v := new(big.Rat).Mul(base, big.NewRat(row.den, row.num))
	return v.Sub(v, new(big.Rat).SetInt64(row.shift))
}

// ParseQuantityUnit reads a unit of the given kind alone: "ft-lb", "N·m",
// "° F", "megohms". Spaces, dots, hyphens and, where it is safe, letter case
// do not matter.
func ParseQuantityUnit(text string, kind QuantityKind) (QuantityUnit, error) {
	s, err := clean(text)
	if err != nil {
		return NoUnit, err
	}
	if u := unitSpelled(s, kind); u != NoUnit {
		return u, nil
	}
	return NoUnit, refuse(UnknownUnit, text, s)
}

// unitSpelled finds the unit of a kind that a cleaned text spells, or NoUnit.
func unitSpelled(s string, kind QuantityKind) QuantityUnit {
	if strings.TrimLeft(s, " ·-*.") != s { // "5 -ft lb": a joiner with nothing to join
		return NoUnit
	}
	folded := strings.NewReplacer(" ", "", "·", "", "-", "", "*", "", ".", "").Replace(s)
	lower := strings.ToLower(folded)
	for _, u := range kind.Units() {
		row := unitRows[u]
		if listed(row.exact, folded) || listed(row.spellings, lower) {
			return u
		}
	}
	return NoUnit
}

// listed reports whether word is in a list separated by spaces.
func listed(list, word string) bool {
	for _, w := range strings.Fields(list) {
		if w == word {
			return true
		}
	}
	return false
}
