package field

// Item is a line of the pre-start list.
type Item struct {
	Key  string // e.g. "blocks.out"
	Done Flag
	By   Text
	Date Date
	Note Text
	At   Ref
}

// StartUp is one start-up record: conditions first, since no number of it means
// anything without them.
type StartUp struct {
	Date           Date
	Time           Clock
	By             Text
	AirTemperature Quantity
	Water          Text // code: "on", "off"
	Frequency      Quantity
	RotationOK     Flag        // fan turns the way its blades ask for
	Uncoupled      Flag        // rotation proved with the drive shaft off
	Volts          [3]Quantity // between phases 1-2, 2-3, 3-1
	Amps           [3]Quantity // phases 1, 2, 3
	MotorSpeed     Quantity
	FanSpeed       Quantity
	Insulation     Quantity
	InsulationTemp Quantity // of the winding
	InsulationTest Quantity // test voltage
	WindingType    Text     // code: "random", "form", "old"
	OilLevelOK     Flag
	OilTemperature Quantity
	Bearing        [2]Quantity // motor, drive end and other end
	RunTime        Quantity
	ReverseOK      Flag // both directions of a reversing fan
	SwitchSetPoint Quantity
	SwitchTrip     Flag // vibration switch tripped the motor when tested
	Vibration      []Vibration
	// What the run was read with, IDs in the register: volts and amps, insulation,
	// speeds, temperatures, vibration.
	Meter, InsulationTester, Tachometer, Thermometer, VibrationMeter Text
	At                                                               Ref
}

// Vibration is one reading: point, axis and detector named.
type Vibration struct {
	Point    Text
	Axis     Text // code: "h", "v", "a"
	Value    Quantity
	Detector Text // code: "rms" or "peak"
	Limit    Quantity
	At       Ref
}
