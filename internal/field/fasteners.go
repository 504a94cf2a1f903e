package field

// Fasteners is one set of like fasteners and how it was locked: a row of the
// cell's schedule.
type Fasteners struct {
	Set         Text  // code of the joint, e.g. "gear.holddown", "blade.clamp"
	Name        Text  // in words, where the code is "other"
	Count       Count // bolts in the set
	Size        Text  // thread, e.g. "5/8-11" or "M16"
	Class       Text  // property class, e.g. "SAE 5" or "8.8"
	Material    Text  // code: "steel", "galvanized", "stainless"
	Lubricant   Text  // code, for the torque coefficient
	Coefficient Number
	FirstPass   Quantity
	Final       Quantity // set value of the last pass
	Required    Quantity // as the contract or the manual says
	FirstUnder  Quantity // first pass under the final: by this much
	Clicks      Count
	Running     Quantity // running torque of locking nuts
	Pattern     Flag     // tightened crosswise
	Stripe      Flag     // torque stripe drawn
	Tool        Text     // instrument ID
	Scheduled   Text     // locking as scheduled, code
	Locking     Text     // locking as found done, code
	LockingTime Text     // code: "before" (assembly) or "after" (final torque)
	Authority   Text
	Date        Date
	Time        Clock
	Sequence    Count
	By          Text
	At          Ref
}

// Pins is a set of dowel pins.
type Pins struct {
	Where        Text // code: "gear", "motor", "support"
	Required     Flag
	Count, Found Count
	Hole         Length
	Above, Below Length // projection
	Date         Date
	Time         Clock
	Sequence     Count
	By           Text
	At           Ref
}
