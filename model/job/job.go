package job

import "boxwalk/model/units"

// Job is the job file: what is to be built and where. Every length is in
// metres once decoded; the tags state the unit of a bare number.
type Job struct {
	Stated      `yaml:"-"`
	Job         Title             `yaml:"job" doc:"What the job is called and the units its bare numbers and drawings use."`
	Sheet       SheetData         `yaml:"sheet" optional:"true" doc:"What the title block of every sheet says."`
	Culvert     Culvert           `yaml:"culvert" doc:"The concrete: cells, section, pours and joints."`
	Ends        Ends              `yaml:"ends" optional:"true" doc:"Aprons beyond the first and last pour, on which the carrier can stand."`
	Alignment   Alignment         `yaml:"alignment" optional:"true" doc:"Where the alignment runs: the centre of the whole box at the top of the invert."`
	LeftInPlace LeftInPlace       `yaml:"left_in_place" optional:"true" doc:"What stays in the pour while the carrier leaves."`
	Travel      Travel            `yaml:"travel" optional:"true" doc:"How the carrier is moved to the next pour."`
	Cycle       *Cycle            `yaml:"cycle" doc:"Working time, gangs and durations, from which the pours are planned hour by hour."`
	Flown       []Flown           `yaml:"flown" optional:"true" maxitems:"40" doc:"What a crane lifts, with its slings."`
	Anchors     Anchors           `yaml:"anchors" optional:"true" doc:"What the pulling line and the restraint are made fast to."`
	Stand       Stand             `yaml:"stand" optional:"true" doc:"Wind and what holds the carrier while it stands free."`
	Schedule    Schedule          `yaml:"schedule" optional:"true" doc:"Ages at which the concrete is used."`
	Concrete    Concrete          `yaml:"concrete" optional:"true" doc:"The fresh and hardened concrete."`
	Release     Release           `yaml:"release" optional:"true" doc:"What the specification asks for before the forms of walls and roof are freed."`
	Pour        Pour              `yaml:"pour" optional:"true" doc:"How the concrete of walls and roof is placed, and by what its pressure is worked out."`
	Capacities  *Capacities       `yaml:"capacities" doc:"What the capacities stated in this file are: permissible or factored, and whose numbers. Without it none of them is used."`
	LoadFactors LoadFactors       `yaml:"load_factors" optional:"true" doc:"What loads are multiplied by before they are held against factored capacities."`
	CoveredBy   map[string]string `yaml:"covered_by" optional:"true" example:"permit 12, sheet 3" doc:"Who answers for a check whose capacities are not stated, by the check's id, such as pour.ties: permit 12, sheet 3. Results print it under what is not checked."`
	Gear        string            `yaml:"gear" doc:"Path of the gear file, relative to the job file; it must stay inside the root folder."`
	Set         Set               `yaml:"set" optional:"true" doc:"Settings this job gives; keys left out are worked out."`
	Sequence    []Step            `yaml:"sequence" optional:"true" minitems:"1" maxitems:"60" doc:"The collapse, step by step; when given it replaces the gear's order."`
	Limits      Limits            `yaml:"limits" optional:"true" doc:"Limits that replace the defaults; 'boxwalk limits' lists those."`
	Tolerance   Tolerance         `yaml:"tolerance" optional:"true" doc:"Tolerances that replace the defaults; 'boxwalk limits' lists those."`
}

// Title names the job.
type Title struct {
	Name   string `yaml:"name" doc:"The job's name, as on the title block."`
	Number string `yaml:"number" default:"" doc:"The job's number, as on the title block."`
	Units  string `yaml:"units" default:"metric" enum:"metric|imperial" doc:"The units of bare numbers, tables and drawings."`
}

// SheetData is what the title block says; the tool has no clock, so the date
// is typed.
type SheetData struct {
	Owner    string `yaml:"owner" default:"" doc:"Legal owner of the drawings."`
	Creator  string `yaml:"creator" default:"" doc:"Who made the drawings."`
	Approver string `yaml:"approver" default:"" doc:"Who approves them; printed only beside approved."`
	Approved string `yaml:"approved" default:"" example:"0123456789ab" doc:"What the approver approved: the hash that check prints. Sheets name no approver where any input, or the program, has changed since."`
	Date     string `yaml:"date" default:"" doc:"Date of issue, as it shall be printed."`
	Revision string `yaml:"revision" default:"" doc:"Revision index."`
	Size     string `yaml:"size" default:"A3" enum:"A0|A1|A2|A3|A4|B|C|D" doc:"Sheet size."`
}

// Culvert is the concrete.
type Culvert struct {
	Cells      Cells        `yaml:"cells" doc:"How many equal cells stand side by side, or a list of {span, rise} from the left looking ahead."`
	Span       units.Length `yaml:"span" example:"3.0 m" optional:"true" above:"0 mm" max:"30 m" doc:"Clear width of a cell, wall face to wall face; bare numbers are metres."`
	Rise       units.Length `yaml:"rise" example:"2.4 m" optional:"true" above:"0 mm" max:"30 m" doc:"Clear height of a cell, invert top to soffit; bare numbers are metres."`
	Roof       units.Length `yaml:"roof" example:"300 mm" min:"100 mm" max:"5 m" doc:"Thickness of the roof slab."`
	Invert     units.Length `yaml:"invert" example:"300 mm" min:"100 mm" max:"5 m" doc:"Thickness of the invert slab."`
	OuterWall  units.Length `yaml:"outer_wall" example:"250 mm" min:"100 mm" max:"5 m" doc:"Thickness of the two outer walls."`
	InnerWall  units.Length `yaml:"inner_wall" default:"200 mm" source:"judgement" min:"100 mm" max:"5 m" doc:"Thickness of the walls between cells."`
	Haunch     Haunches     `yaml:"haunch" optional:"true" doc:"Haunches as run x rise; leave one out where there is none."`
	Kicker     units.Length `yaml:"kicker" default:"0 mm" source:"none unless given" min:"0 mm" max:"5 m" doc:"Height of the kicker (starter wall) above the invert top, cast with the invert."`
	Skew       Skews        `yaml:"skew" optional:"true" doc:"Skew of ends and joints, measured from square; positive: the left side further ahead."`
	Pours      Pours        `yaml:"pours" doc:"Lengths of the pours along the alignment from the inlet, or {each, total}."`
	Order      Order        `yaml:"order" default:"ahead" doc:"'ahead', or a list of pour numbers in the order they are cast; {cell, pour} for a pour that is cast in one cell by itself."`
	Face       string       `yaml:"face" default:"square_to_grade" enum:"square_to_grade|plumb" doc:"Whether pour ends stand square to the grade or plumb."`
	Lap        Lengths      `yaml:"lap" default:"0 mm" source:"none unless given" min:"0 mm" max:"2 m" doc:"Length by which the form overlaps the pour before: one value, or one per joint."`
	JointGap   units.Length `yaml:"joint_gap" default:"0 mm" source:"none unless given" min:"0 mm" max:"500 mm" doc:"Width of the joint between two pours."`
	JointCover bool         `yaml:"joint_cover" default:"false" doc:"Joints in the invert are closed flush before anything stands on them or rolls over them, by plates that bear on both sides or by filling; whoever writes so sees to it."`
	Camber     units.Length `yaml:"camber" default:"0 mm" source:"none unless given" min:"-200 mm" max:"200 mm" doc:"Raises the whole soffit of a pour."`
	Channel    *Channel     `yaml:"channel" doc:"Low-flow channel in the invert, where there is one."`
}

// Cell is one cell's clear opening.
type Cell struct {
	Span units.Length `yaml:"span" example:"3.0 m" above:"0 mm" max:"30 m" doc:"Clear width."`
	Rise units.Length `yaml:"rise" example:"2.4 m" above:"0 mm" max:"30 m" doc:"Clear height."`
}

// Haunches top and bottom; nil where there is none.
type Haunches struct {
	Top    *units.Size2 `yaml:"top" doc:"Top haunch, run x rise."`
	Bottom *units.Size2 `yaml:"bottom" doc:"Bottom haunch, run x rise."`
}

// Skews of the two ends and of the joints.
type Skews struct {
	Inlet  units.Angle `yaml:"inlet" default:"0 deg" source:"square unless given" min:"-60 deg" max:"60 deg" doc:"Skew of the inlet end."`
	Outlet units.Angle `yaml:"outlet" default:"0 deg" source:"square unless given" min:"-60 deg" max:"60 deg" doc:"Skew of the outlet end."`
	Joints JointSkew   `yaml:"joints" default:"square" doc:"'square', 'along the skew', or an angle."`
}

// Channel is a low-flow channel in the invert.
type Channel struct {
	Offset units.Length `yaml:"offset" default:"0 m" source:"in the middle unless given" doc:"Centre of the channel, left of the cell's centreline."`
	Width  units.Length `yaml:"width" example:"400 mm" above:"0 mm" max:"30 m" doc:"Width of the channel."`
	Depth  units.Length `yaml:"depth" example:"100 mm" above:"0 mm" max:"5 m" doc:"Depth of the channel below the invert top."`
}

// Ends of the culvert.
type Ends struct {
	Inlet  EndWorks `yaml:"inlet" optional:"true" doc:"Works before the first pour."`
	Outlet EndWorks `yaml:"outlet" optional:"true" doc:"Works beyond the last pour."`
}

// EndWorks are the slab beyond an end.
type EndWorks struct {
	Apron units.Length `yaml:"apron" default:"0 m" source:"none unless given" min:"0 m" max:"100 m" doc:"Length of slab at invert level beyond the end."`
}

// Alignment is the way the job runs: plan elements and profile points, or a LandXML
// file; with neither, one tangent on one straight grade.
type Alignment struct {
	Start     AlignmentStart `yaml:"start" optional:"true" doc:"Where the alignment starts: the inlet end."`
	Grade     units.Slope    `yaml:"grade" default:"0 %" source:"level unless given" min:"-20 %" max:"20 %" doc:"Straight grade, positive rising ahead, where there is no profile; bare numbers are per cent."`
	Plan      []PlanElement  `yaml:"plan" optional:"true" maxitems:"500" doc:"Tangents, angle points and curves from the inlet; left out, one tangent."`
	Profile   []ProfilePoint `yaml:"profile" optional:"true" maxitems:"500" doc:"Points where the grade changes, from the inlet; left out, the straight grade."`
	Crossfall units.Slope    `yaml:"crossfall" default:"0 %" source:"level across unless given" min:"-10 %" max:"10 %" doc:"Crossfall (cross slope): fall of the invert across the cell, positive falling to the right."`
	LandXML   string         `yaml:"landxml" default:"" doc:"LandXML 1.2 file with the alignment, relative to the job file; it excludes plan and profile."`
	Name      string         `yaml:"name" default:"" doc:"Name of the alignment in the LandXML file, where it has several."`
}

// PlanElement is one of a tangent, an angle point and a circular curve.
type PlanElement struct {
	Tangent *units.Length `yaml:"tangent" above:"0 m" max:"20000 m" doc:"Length of a straight."`
	Turn    *Turn         `yaml:"turn" doc:"Angle point: an angle with left or right behind it."`
	Curve   *Curve        `yaml:"curve" doc:"Circular curve."`
}

// Curve is a circular curve tangent to what comes before.
type Curve struct {
	Radius units.Length `yaml:"radius" example:"300 m" above:"0 m" max:"100000 m" doc:"Radius."`
	Length units.Length `yaml:"length" example:"12 m" above:"0 m" max:"20000 m" doc:"Length along the curve."`
	Turn   string       `yaml:"turn" enum:"left|right" doc:"To which side it turns."`
}

// ProfilePoint is where two grades meet.
type ProfilePoint struct {
	Station   units.Station    `yaml:"station" example:"0+026" doc:"Station along the alignment."`
	Elevation units.Coordinate `yaml:"elevation" example:"182.4 m" doc:"Elevation of the invert top there, on the grades themselves."`
	Curve     *units.Length    `yaml:"curve" above:"0 m" max:"5000 m" doc:"Length of the parabolic vertical curve about it; left out, a grade break."`
}

// AlignmentStart places the job on the ground; only exports use it.
type AlignmentStart struct {
	Station   units.Station    `yaml:"station" default:"0+000" source:"a name for the start, enters no check" doc:"Station of the inlet."`
	Elevation units.Coordinate `yaml:"elevation" default:"0 m" source:"where the job lies, enters no check" doc:"Elevation of the invert top at the inlet."`
	Bearing   units.Angle      `yaml:"bearing" default:"0 deg" source:"where the job lies, enters no check" min:"-360 deg" max:"360 deg" doc:"Bearing of the alignment ahead, clockwise from north."`
	Easting   units.Coordinate `yaml:"easting" default:"0 m" source:"where the job lies, enters no check" doc:"Easting of the alignment's start."`
	Northing  units.Coordinate `yaml:"northing" default:"0 m" source:"where the job lies, enters no check" doc:"Northing of the alignment's start."`
}

// LeftInPlace is what the carrier must pass on its way out.
type LeftInPlace struct {
	Hangers    *Hangers    `yaml:"hangers" doc:"Rods and plates that keep the roof up while it is young."`
	SteelAhead *SteelAhead `yaml:"steel_ahead" doc:"Wall reinforcement already tied over the next invert."`
}

// Hangers stand over the bents, in lines along the cell.
type Hangers struct {
	At          string          `yaml:"at" default:"bents" enum:"bents" doc:"Where along the cell: over every bent."`
	Lines       []units.Length  `yaml:"lines" minitems:"1" maxitems:"10" doc:"Lines along the cell, left of its centreline."`
	Plate       units.Size3     `yaml:"plate" example:"200 x 200 x 20 mm" min:"3 mm" max:"2 m" doc:"Plate against the soffit: length along the cell x width across x thickness."`
	Rod         units.Length    `yaml:"rod" example:"25 mm" min:"6 mm" max:"200 mm" doc:"Diameter of the rod."`
	Tail        units.Length    `yaml:"tail" default:"50 mm" source:"judgement" min:"0 mm" max:"1 m" doc:"Nut and rod below the plate; 0 where the rod is a stud held from above."`
	Nut         units.Length    `yaml:"nut" default:"44 mm" source:"judgement" min:"6 mm" max:"500 mm" doc:"Width of nut and rod end below the plate."`
	Live        units.Pressure  `yaml:"live" default:"2.4 kPa" source:"ACI 347-04 2.2.1, least construction live load, read in a training manual that has it" safer:"more" min:"0 kPa" max:"100 kPa" doc:"People and equipment on the young roof while it hangs."`
	RodCapacity *units.Force    `yaml:"rod_capacity" rated:"true" example:"60 kN" above:"0 kN" max:"10000 kN" doc:"What one rod with its nuts carries."`
	PlateStress *units.Pressure `yaml:"plate_stress" rated:"true" example:"160 MPa" above:"0 MPa" max:"2000 MPa" doc:"Bending stress that the plates' steel takes."`
	Beam        *HangerBeam     `yaml:"beam" doc:"Beam above every bent, from wall top to wall top, that the rods hang from."`
}

// HangerBeam is what the rods hang from: one beam across each cell, or beams that reach
// over several, taken as one a cell.
type HangerBeam struct {
	Moment   *units.Moment `yaml:"moment" rated:"true" example:"30 kNm" above:"0 kNm" max:"10000 kNm" doc:"Bending moment that it carries."`
	Shear    *units.Force  `yaml:"shear" rated:"true" example:"80 kN" above:"0 kN" max:"10000 kN" doc:"Shear that it carries."`
	Mass     units.Number  `yaml:"mass" default:"60" source:"judgement: two channels 200 mm high" safer:"more" min:"0" max:"2000" doc:"Its mass in kilograms per metre."`
	Bears    units.Size2   `yaml:"bears" example:"200 x 150 mm" above:"0 mm" max:"2 m" doc:"Plate or packing by which it bears on a wall's top: along the cell x across."`
	FromFace *units.Length `yaml:"from_face" example:"125 mm" above:"0 mm" max:"5 m" doc:"Middle of that from the wall's inner face; left out, the middle of the wall."`
}

// SteelAhead is a curtain of bars standing on the next invert's kickers.
type SteelAhead struct {
	Cover units.Length `yaml:"cover" default:"50 mm" source:"common practice" min:"0 mm" max:"1 m" doc:"Cover of the bars to the wall face."`
	Lean  units.Length `yaml:"lean" default:"15 mm" source:"judgement" safer:"more" min:"0 mm" max:"1 m" doc:"How far a bar may lean toward the cell."`
}

// Travel is how the carrier moves; the rolling checks read it.
type Travel struct {
	PulledBy  string       `yaml:"pulled_by" default:"winch" enum:"winch|crane line|crew" doc:"What pulls the carrier."`
	Capacity  units.Force  `yaml:"capacity" rated:"true" default:"0 kN" source:"not stated" min:"0 kN" max:"1000 kN" doc:"What the pulling line can pull; 0 is not stated."`
	End       string       `yaml:"end" default:"front" enum:"front|rear" doc:"Which end is pulled as the carrier rolls ahead; rolling back it is the other one."`
	Leaves    string       `yaml:"leaves" default:"outlet" enum:"outlet|inlet" doc:"Over which end the carrier leaves after the last pour that it casts."`
	Steering  string       `yaml:"steering" default:"centreline" enum:"centreline|offset|guide rollers" doc:"How the carrier is guided: wheels on the centreline, wheels beside it by offset, or rollers on a wall."`
	Offset    units.Length `yaml:"offset" default:"0 mm" source:"none unless given" min:"-500 mm" max:"500 mm" doc:"Steering offset: how far left of the centreline the carrier is moved over before it rolls, and back after."`
	Rollers   *Rollers     `yaml:"rollers" optional:"true" doc:"Guide rollers that run along a wall."`
	Wander    units.Length `yaml:"wander" default:"15 mm" source:"judgement" safer:"more" min:"0 mm" max:"500 mm" doc:"How far the wheels may wander off their course."`
	Restraint *Restraint   `yaml:"restraint" also:"hold_back|holdback|brake" doc:"The brake or rope that holds the carrier back on a downgrade."`
	Rolling   Rolling      `yaml:"rolling" optional:"true" doc:"Rolling resistance as force over load."`
	Breakaway units.Number `yaml:"breakaway" default:"2" source:"judgement" safer:"more" min:"1" max:"10" doc:"Starting resistance over rolling resistance."`
	Scrub     units.Number `yaml:"scrub" default:"0.8" source:"tyres on dry concrete 0.6 to 0.85, from memory" safer:"more" min:"0" max:"1.5" doc:"Friction of a wheel that is pushed sideways, force over load; tyres on dry concrete have 0.6 to 0.85 (from memory)."`
}

// Rollers guide the carrier along one wall.
type Rollers struct {
	Side  string       `yaml:"side" enum:"left|right" doc:"The wall that the rollers run along."`
	Rear  units.Length `yaml:"rear" min:"0 m" max:"100 m" doc:"Rear roller, from the rear end of the form."`
	Front units.Length `yaml:"front" above:"0 m" max:"100 m" doc:"Front roller, from the rear end of the form."`
}

// Restraint is what keeps the carrier from running away.
type Restraint struct {
	Capacity units.Force `yaml:"capacity" rated:"true" above:"0 kN" max:"1000 kN" doc:"What the restraint can hold."`
}

// Rolling coefficients: the least counts for holding, the most for pulling. Friction
// holds a carrier only where somebody states it and says where it is from.
type Rolling struct {
	Least  units.Number `yaml:"least" default:"0" source:"the safe end: no resistance is counted on" safer:"less" min:"0" max:"1" doc:"Least rolling coefficient, which is counted on for holding; more than 0 needs source."`
	Most   units.Number `yaml:"most" default:"0.02" source:"judgement" safer:"more" min:"0" max:"1" doc:"Most rolling coefficient."`
	Source string       `yaml:"source" optional:"true" example:"pull test of this carrier on site" doc:"Where least is from, in the words of whoever answers for it; needed where least is more than 0."`
}

// Schedule of ages. Nil is not stated: an age has no default.
type Schedule struct {
	InvertAge *units.Duration `yaml:"invert_age" example:"5 d" min:"0 h" max:"1000 d" doc:"Age of the invert when wheels run on it, since casting; concrete.curing says what it is worth."`
	WallsAge  *units.Duration `yaml:"walls_age" example:"20 h" min:"0 h" max:"1000 d" doc:"Age of the walls when the first of their form is freed, since casting."`
	RoofAge   *units.Duration `yaml:"roof_age" example:"4 d" min:"0 h" max:"1000 d" doc:"Age of the roof when the first of its form is freed, since casting."`
}

// Concrete as delivered, as specified and as it hardens. What has to do with
// strength has no default.
type Concrete struct {
	UnitWeight     units.UnitWeight   `yaml:"unit_weight" default:"25 kN/m3" source:"EN 1991-1-1, plain concrete of normal weight while it is fresh, from memory" above:"0 kN/m3" max:"60 kN/m3" doc:"Unit weight of the fresh concrete."`
	Cement         string             `yaml:"cement" optional:"true" example:"N" enum:"R|N|S" doc:"Strength-gain class of the cement by EN 1992-1-1: R rapid, N normal, S slow."`
	RiseRate       *units.Rate        `yaml:"rise_rate" example:"1.5 m/h" above:"0 m/h" max:"50 m/h" doc:"How fast the concrete rises in the walls, at most; no default: a method of pour.pressure that needs it stays open without."`
	Temperature    *units.Temperature `yaml:"temperature" example:"15 degC" min:"-10 degC" max:"60 degC" doc:"Temperature of the fresh concrete when it is placed, the least of it, for its pressure; how it hardens is concrete.curing. No default: a method of pour.pressure that needs it stays open without."`
	Strength       *units.Pressure    `yaml:"strength" example:"30 MPa" above:"0 MPa" max:"200 MPa" doc:"Characteristic cylinder strength at 28 days."`
	Curing         *Curing            `yaml:"curing" doc:"Temperature of the invert's concrete since casting: one mean, a list of {for, at} from casting on, or a CSV file beside the job (hours,degC), that reaches as far as schedule.invert_age. Strength by age needs it; the placing temperature does not stand in for it."`
	InvertStrength *units.Pressure    `yaml:"invert_strength" example:"18 MPa" above:"0 MPa" max:"200 MPa" doc:"Strength of the invert when the wheels run on it, by cylinders kept beside it, the least of them; it governs over age and curing."`
	WallsCuring    *Curing            `yaml:"walls_curing" doc:"Temperature of the walls' concrete since casting, as curing, as far as schedule.walls_age."`
	RoofCuring     *Curing            `yaml:"roof_curing" doc:"Temperature of the roof's concrete since casting, as curing, as far as schedule.roof_age."`
	WallsStrength  *units.Pressure    `yaml:"walls_strength" example:"8 MPa" above:"0 MPa" max:"200 MPa" doc:"Strength of the walls at schedule.walls_age, by cylinders kept beside them, the least of them; it governs over age and curing."`
	RoofStrength   *units.Pressure    `yaml:"roof_strength" example:"21 MPa" above:"0 MPa" max:"200 MPa" doc:"Strength of the roof at schedule.roof_age, by cylinders kept beside it, the least of them; it governs over age and curing."`
	Calibration    *Calibration       `yaml:"calibration" doc:"Strength of the mix of walls and roof by its maturity, from tests of that mix; it governs over cement class and concrete.strength."`
}

// Set gives settings that would otherwise be worked out.
type Set struct {
	Jack   *units.Length `yaml:"jack" example:"300 mm" above:"0 mm" doc:"Raised jack reading: sill underside to plate underside."`
	Leg    *units.Length `yaml:"leg" example:"1500 mm" above:"0 mm" doc:"Leg length, sill top to header underside."`
	Gauge  *units.Length `yaml:"gauge" example:"1800 mm" above:"0 mm" doc:"Leg and wheel gauge, centre to centre."`
	Foot   *units.Length `yaml:"foot" example:"250 mm" min:"0 mm" doc:"Height of the wall panels' foot above the invert top."`
	Filler *units.Length `yaml:"filler" also:"closure|closer|strip" example:"360 mm" above:"0 mm" doc:"Width of the fillers at the soffit: in the middle (roof halves) or at each edge (whole roof)."`
}

// Step is one step of the collapse.
type Step struct {
	Step    string            `yaml:"step" maxlength:"60" doc:"Name of the step; a name the gear also uses takes its words and what it removes from there."`
	Say     string            `yaml:"say" default:"" doc:"What the crew does."`
	Caution string            `yaml:"caution" default:"" doc:"What can hurt someone in this step."`
	Drivers map[string]Target `yaml:"drivers" optional:"true" doc:"Adjuster readings at the end of the step."`
	Locked  []string          `yaml:"locked" optional:"true" maxitems:"40" doc:"Follower links left locked in this step."`
	Takes   *units.Duration   `yaml:"takes" example:"45 min" above:"0 h" max:"24 h" doc:"How long it takes on one carrier, for the plan of the pours."`
	Removes []string          `yaml:"removes" optional:"true" maxitems:"10" doc:"What comes off before anything moves: fillers, ties."`
}

// Limits that replace the defaults.
type Limits struct {
	StripRelease *units.Length `yaml:"strip.release" example:"3 mm" min:"0 mm" doc:"Least gap to concrete while collapsing, once a face has been released."`
	StripClear   *ZoneLimits   `yaml:"strip.clear" doc:"Travel clearance when collapsed, surface by surface."`
	RollClear    *units.Length `yaml:"roll.clear" example:"25 mm" min:"0 mm" doc:"Clearance while rolling ahead."`
	MidOrdinate  *units.Length `yaml:"roll.mid_ordinate" example:"10 mm" min:"0 mm" doc:"Distance of a straight pour from the alignment."`
	RaiseLift    *units.Length `yaml:"raise.lift" example:"15 mm" min:"0 mm" doc:"Out of level over 1 m while pads are lifted one after the other."`
	StripDrag    *units.Length `yaml:"strip.drag" example:"0 mm" min:"0 mm" doc:"Sliding of a face or edge in contact, in one step."`
	PourSag      *units.Length `yaml:"pour.sag" example:"2.78 mm" above:"0 mm" max:"100 mm" doc:"Sag of stringers, headers and arms under the pour, over 1 m of their span."`
	SetupFaces   *units.Length `yaml:"setup.faces" example:"3 mm" min:"0 mm" doc:"Distance of a raised panel face from its design face."`
}

// ZoneLimits is the travel clearance of each surface.
type ZoneLimits struct {
	Roof         *units.Length `yaml:"roof" example:"25 mm" min:"0 mm" doc:"To the soffit."`
	HaunchTop    *units.Length `yaml:"haunch_top" example:"25 mm" min:"0 mm" doc:"To the top haunch."`
	Wall         *units.Length `yaml:"wall" example:"25 mm" min:"0 mm" doc:"To the wall."`
	Kicker       *units.Length `yaml:"kicker" example:"25 mm" min:"0 mm" doc:"To the kicker."`
	HaunchBottom *units.Length `yaml:"haunch_bottom" example:"25 mm" min:"0 mm" doc:"To the bottom haunch."`
	Hanger       *units.Length `yaml:"hanger" example:"25 mm" min:"0 mm" doc:"To hanger plates, rods and nuts."`
}

// Tolerance replaces entries of the tolerance allowance; see worked numbers in
// the README.
type Tolerance struct {
	PanelFace  *units.Length `yaml:"panel_face" example:"3 mm" min:"0 mm" doc:"Panel face off its place."`
	SpringBack *units.Length `yaml:"spring_back" example:"3 mm" min:"0 mm" doc:"Wall springing back when the form comes off."`
	Wander     *units.Length `yaml:"wander" example:"15 mm" min:"0 mm" doc:"Wheels off their course."`
	Yaw        *units.Length `yaml:"yaw" example:"10 mm" min:"0 mm" doc:"Carrier turned in plan, at its ends."`
	TrackLevel *units.Length `yaml:"track_level" example:"6 mm" min:"0 mm" doc:"Level difference between the two wheel tracks."`
	Setting    *units.Length `yaml:"setting" example:"3 mm" min:"0 mm" doc:"Adjusters off their reading."`
	Alignment  *units.Length `yaml:"alignment" example:"25 mm" min:"0 mm" doc:"Concrete formed by others off alignment."`
	Thickness  *units.Length `yaml:"thickness" example:"10 mm" min:"0 mm" doc:"Section size of concrete formed by others."`
	Plumb      *units.Length `yaml:"plumb" example:"10 mm" min:"0 mm" doc:"Plumb of concrete formed by others."`
	SoffitFace *units.Length `yaml:"soffit_face" example:"3 mm" min:"0 mm" doc:"Roof panel face off its place."`
	RoofSag    *units.Length `yaml:"roof_sag" example:"5 mm" min:"0 mm" doc:"Sag and creep of the young roof."`
	Invert     *units.Length `yaml:"invert" example:"6 mm" min:"0 mm" doc:"Invert off level."`
	Tyres      *units.Length `yaml:"tyres" example:"2 mm" min:"0 mm" doc:"Wheels settling under load."`
	Frame      *units.Length `yaml:"frame" example:"3 mm" min:"0 mm" doc:"Frame bending under its own weight."`
	Level      *units.Length `yaml:"level" example:"19 mm" min:"0 mm" doc:"Level of concrete formed by others."`
	JackLevel  *units.Length `yaml:"jack_level" example:"2.5 mm" min:"1 mm" doc:"Most that any screw jack is ahead of any other while they carry and are turned, side to side or along."`
	Lag        *units.Length `yaml:"lag" example:"10 mm" min:"0 mm" doc:"Out-of-step difference between adjusters turned in one step."`
}
