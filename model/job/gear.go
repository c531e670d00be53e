package job

import "boxwalk/model/units"

// Gear is the gear file: what the yard owns, reused job after job. Everything
// is measured from a body's own datum, so that the same gear fits other
// sections: `behind` from the wall face toward the centreline, `out` from the
// centreline, `above_foot` from the wall panel's foot, `below_top` from the top
// of the plane wall face, `above_sill` from the sill's underside,
// `above_header` from the header's centre.
type Gear struct {
	Stated     `yaml:"-"`
	Gear       GearTitle              `yaml:"gear" doc:"What the gear is called and how it collapses."`
	Capacities *Capacities            `yaml:"capacities" doc:"What the capacities stated in this file are: permissible or factored, and whose numbers. Without it none of them is used."`
	Form       Form                   `yaml:"form" doc:"Length of the form and the bents along it."`
	Wall       WallPanels             `yaml:"wall" doc:"Wall panels and walers."`
	Corner     Corner                 `yaml:"corner" doc:"Corner panel over the top haunch."`
	Roof       RoofPanels             `yaml:"roof" doc:"Roof panels, stringers and the fillers between them."`
	Hinge      *Hinge                 `yaml:"hinge" doc:"Hinge of the wall on the roof half (roof_halves)."`
	Slide      *Slide                 `yaml:"slide" doc:"Roller track on which the walls draw in (roof_whole)."`
	Frame      Frame                  `yaml:"frame" doc:"Bents, sills and struts."`
	Jack       Jack                   `yaml:"jack" doc:"Screw jacks under the legs."`
	RoofJack   *RoofJack              `yaml:"roof_jack" doc:"Jacks between header and roof, where the roof has its own (roof_whole): range of lowering."`
	Wheels     Wheels                 `yaml:"wheels" doc:"Wheels under the sills."`
	Lifting    *Lifting               `yaml:"lifting" doc:"Lifting jacks and the pads they lift the carrier at."`
	Ties       *Ties                  `yaml:"ties" doc:"Ties through the walls."`
	Pulls      map[string]units.Force `yaml:"pulls" rated:"true" optional:"true" example:"30 kN" doc:"What one brace, turnbuckle or draw screw pulls when it is shortened, its pins included, by its name, such as low brace: 30 kN."`
	Links      []Link                 `yaml:"links" maxitems:"20" doc:"Braces and turnbuckles."`
	Mass       Masses                 `yaml:"mass" optional:"true" doc:"What the carrier weighs, where it was weighed, and what lies on it."`
	Steps      []Step                 `yaml:"steps" minitems:"1" maxitems:"60" doc:"The collapse, step by step."`
}

// Masses are what the parts do not tell.
type Masses struct {
	Total *units.Mass  `yaml:"total" example:"8000 kg" above:"0 kg" doc:"Mass of the carrier as it was weighed, with all panels, fillers and ties; it governs. Left out, the parts are summed up. The centre of gravity is that of the parts either way."`
	Extra units.Number `yaml:"extra" default:"10" safer:"more" source:"judgement: concrete 2 mm thick that sticks (5 kg/m2); decking, tools and hoses (5 kg/m2)" min:"0" max:"200" doc:"Decking, tools, hoses and concrete that sticks: the most of it, in kilograms per square metre of face; it may be nothing."`
}

// GearTitle names the gear.
type GearTitle struct {
	Name  string `yaml:"name" maxlength:"60" doc:"The gear's name."`
	Kind  string `yaml:"kind" enum:"@kinds" doc:"Kind of collapse."`
	Units string `yaml:"units" default:"metric" enum:"metric|imperial" doc:"The units of bare numbers in this file."`
}

// Adjust is anything that can be set: a range and an increment.
type Adjust struct {
	Min       units.Length  `yaml:"min" min:"0 mm" doc:"Least value."`
	Max       units.Length  `yaml:"max" min:"0 mm" doc:"Greatest value."`
	Increment units.Length  `yaml:"increment" default:"0 mm" source:"stepless unless given" min:"0 mm" doc:"Step between values it can take, counted from min; 0 is stepless."`
	Prefer    *units.Length `yaml:"prefer" doc:"Value to take where there is a choice."`
}

// Form is the length of the form and its bents.
type Form struct {
	Length  units.Length `yaml:"length" above:"0 m" max:"60 m" doc:"Length of the panels along the cell."`
	Bents   int          `yaml:"bents" min:"2" max:"60" doc:"Number of bents."`
	Spacing units.Length `yaml:"spacing" above:"0 m" max:"10 m" doc:"Spacing of the bents."`
	First   units.Length `yaml:"first" min:"0 m" max:"10 m" doc:"First bent from the rear end of the form."`
	Piece   units.Length `yaml:"piece" above:"0 m" max:"20 m" doc:"Greatest length of one panel along the cell."`
}

// WallPanels are stacked until they reach from the top of the plane wall face
// down over the kicker.
type WallPanels struct {
	Heights    []units.Length  `yaml:"heights" example:"1650 mm" above:"0 mm" max:"10 m" minitems:"1" maxitems:"12" doc:"Panel heights the yard has, any number of each."`
	Most       int             `yaml:"most" default:"4" source:"judgement" min:"1" max:"12" doc:"Most panels in one stack."`
	Depth      units.Length    `yaml:"depth" above:"0 mm" max:"1 m" doc:"Depth of facing and frame."`
	Facing     units.Length    `yaml:"facing" default:"6 mm" source:"judgement" above:"0 mm" max:"100 mm" doc:"Thickness of the facing, which is part of depth. Read by no check yet."`
	Mass       *units.Number   `yaml:"mass" example:"70" above:"0" max:"1000" doc:"Mass in kilograms per square metre of face; left out, 40 to 110 are reckoned with (judgement)."`
	Pressure   *units.Pressure `yaml:"pressure" rated:"true" example:"70 kPa" above:"0 kPa" doc:"Pressure of fresh concrete that the wall panels, facing and frame, are stated for."`
	OverKicker Adjust          `yaml:"over_kicker" also:"lap" doc:"How far the panels reach down over the kicker (starter wall)."`
	Walers     Walers          `yaml:"walers" doc:"Walers behind the wall panels."`
}

// Walers run along the cell behind the wall panels.
type Walers struct {
	Section   units.Size2    `yaml:"section" example:"80 x 80 mm" above:"0 mm" max:"1 m" doc:"Depth x height."`
	AboveFoot []units.Length `yaml:"above_foot" optional:"true" maxitems:"20" doc:"Centre heights above the panels' foot."`
	BelowTop  []units.Length `yaml:"below_top" optional:"true" maxitems:"20" doc:"Centre depths below the top of the plane wall face."`
	Mass      *units.Number  `yaml:"mass" example:"12" above:"0" max:"1000" doc:"Mass of a waler in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
	Moment    *units.Moment  `yaml:"moment" rated:"true" example:"9 kNm" above:"0 kNm" doc:"Bending moment that a waler takes, joints between its lengths included."`
	Shear     *units.Force   `yaml:"shear" rated:"true" example:"60 kN" above:"0 kN" doc:"Shear that a waler takes, crippling at a tie included."`
	Inertia   *units.Inertia `yaml:"inertia" example:"105 cm4" above:"0 cm4" doc:"Second moment of area of a waler as it bends between ties; stated, its deflection is checked."`
}

// Corner is the panel over the top haunch.
type Corner struct {
	Haunch   units.Size2     `yaml:"haunch" example:"200 x 200 mm" min:"0 mm" max:"5 m" doc:"Haunch the corner panel fits, run x rise; 0 x 0 mm for a box without."`
	Pressure *units.Pressure `yaml:"pressure" rated:"true" example:"40 kPa" above:"0 kPa" doc:"Pressure of fresh concrete that the corner panels are stated for."`
	Return   units.Length    `yaml:"return" default:"0 mm" source:"none unless given" min:"0 mm" max:"1 m" doc:"Part of the haunch's rise that the wall panel covers (roof_halves)."`
	Leg      units.Length    `yaml:"leg" default:"0 mm" source:"none unless given" min:"0 mm" max:"2 m" doc:"Part of the plane wall face that the corner panel covers (roof_halves)."`
	Soffit   units.Length    `yaml:"soffit" default:"0 mm" source:"none unless given" min:"0 mm" max:"2 m" doc:"Part of the soffit, beyond the haunch, that the corner panel covers."`
	Depth    units.Length    `yaml:"depth" above:"0 mm" max:"1 m" doc:"Depth of facing and frame."`
	Mass     *units.Number   `yaml:"mass" example:"70" above:"0" max:"1000" doc:"Mass in kilograms per square metre of face; left out, 40 to 110 are reckoned with (judgement)."`
}

// RoofPanels are one width from corner panel to filler.
type RoofPanels struct {
	Widths         []units.Length  `yaml:"widths" example:"1120 mm" above:"0 mm" max:"15 m" minitems:"1" maxitems:"60" doc:"Panel widths at the soffit the yard has: of one half (roof_halves) or of half the whole roof (roof_whole)."`
	Depth          units.Length    `yaml:"depth" above:"0 mm" max:"1 m" doc:"Depth of facing and frame."`
	Facing         units.Length    `yaml:"facing" default:"6 mm" source:"judgement" above:"0 mm" max:"100 mm" doc:"Thickness of the facing, which is part of depth. Read by no check yet."`
	Mass           *units.Number   `yaml:"mass" example:"70" above:"0" max:"1000" doc:"Mass in kilograms per square metre of face; left out, 40 to 110 are reckoned with (judgement)."`
	Taper          units.Length    `yaml:"taper" default:"10 mm" source:"judgement" min:"0 mm" max:"200 mm" doc:"How much wider a filler is at the underside than at the soffit, on each tapered side."`
	Stringers      Stringers       `yaml:"stringers" doc:"Stringers under the roof panels."`
	Seat           units.Length    `yaml:"seat" above:"0 mm" max:"1 m" doc:"Height between header top and stringer underside."`
	Filler         Adjust          `yaml:"filler" also:"closure|closer|fillers" doc:"Width of a filler at the soffit."`
	FillerPressure *units.Pressure `yaml:"filler_pressure" rated:"true" example:"20 kPa" above:"0 kPa" doc:"Pressure of fresh concrete that the fillers are stated for."`
	FillerLength   units.Length    `yaml:"filler_length" also:"strip|filler_strip|closure_length" above:"0 mm" max:"10 m" doc:"Length of a filler piece between two bents."`
	Pocket         *units.Size3    `yaml:"pocket" example:"240 x 240 x 40 mm" above:"0 mm" max:"2 m" doc:"Pocket: a recess in the facing, on the centreline over every bent, in which a hanger plate lies with its top level with the facing: length x width x depth, larger than the plate by play on every side (roof_whole)."`
	Pressure       *units.Pressure `yaml:"pressure" rated:"true" example:"25 kPa" above:"0 kPa" max:"1000 kPa" doc:"What roof panels carry: fresh concrete, people and equipment, their own weight."`
	Seal           units.Length    `yaml:"seal" default:"0 mm" source:"none unless given" min:"0 mm" max:"30 mm" doc:"Width of a compressible seal round a plate in its pocket, which closes the play while the concrete is placed; it yields to the plate (roof_whole)."`
}

// RoofJack is a jack between header and roof: how far it lowers, and what it carries.
type RoofJack struct {
	Adjust   `yaml:",inline"`
	Capacity *units.Force `yaml:"capacity" rated:"true" example:"30 kN" above:"0 kN" max:"10000 kN" doc:"What one roof jack carries."`
}

// Stringers run along the cell under the roof panels.
type Stringers struct {
	Section    units.Size2    `yaml:"section" example:"80 x 80 mm" above:"0 mm" max:"1 m" doc:"Width x depth."`
	FromCorner []units.Length `yaml:"from_corner" optional:"true" maxitems:"20" doc:"Centres from the corner panel's edge toward the centreline."`
	FromFiller []units.Length `yaml:"from_filler" also:"from_strip|from_closure" optional:"true" maxitems:"20" doc:"Centres from the filler's edge into the panel."`
	Middle     bool           `yaml:"middle" default:"false" doc:"One more on the centreline (roof_whole)."`
	Moment     *units.Moment  `yaml:"moment" rated:"true" example:"6 kNm" above:"0 kNm" max:"10000 kNm" doc:"Bending moment that one stringer carries."`
	Shear      *units.Force   `yaml:"shear" rated:"true" example:"40 kN" above:"0 kN" max:"10000 kN" doc:"Shear that one stringer carries."`
	Inertia    *units.Inertia `yaml:"inertia" example:"140 cm4" above:"0 cm4" doc:"Second moment of area of a stringer, of steel; of another material times its modulus over 210 GPa."`
	Mass       *units.Number  `yaml:"mass" example:"12" above:"0" max:"1000" doc:"Mass of a stringer in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
}

// Hinge of the wall panel on the roof half.
type Hinge struct {
	Behind units.Length `yaml:"behind" above:"0 mm" max:"2 m" doc:"Hinge behind the wall face."`
	Above  units.Length `yaml:"above" min:"-2 m" max:"2 m" doc:"Hinge above the top of the plane wall face."`
}

// Slide is the roller track that a wall draws in on.
type Slide struct {
	Fall    units.Slope `yaml:"fall" default:"5 %" source:"judgement" min:"0 %" max:"50 %" doc:"Fall of the track toward the centreline."`
	Draw    Adjust      `yaml:"draw" doc:"Range of the draw screw: how far the wall is drawn in."`
	Bracket Bracket     `yaml:"bracket" doc:"Bracket that carries the wall on the header."`
}

// Bracket hangs the wall on the header.
type Bracket struct {
	From  units.Length `yaml:"from" above:"0 mm" max:"5 m" doc:"Inner end, behind the wall face."`
	Above units.Length `yaml:"above" above:"0 mm" max:"1 m" doc:"Underside above the header's top."`
	Depth units.Length `yaml:"depth" above:"0 mm" max:"1 m" doc:"Depth of the bracket."`
}

// Frame is what keeps its width through the collapse.
type Frame struct {
	Gauge     Adjust        `yaml:"gauge" doc:"Legs, sills and wheels, centre to centre."`
	Leg       Leg           `yaml:"leg" doc:"Telescopic legs between sill and header."`
	Header    Header        `yaml:"header" doc:"Header tube and sliding arms."`
	Side      *units.Force  `yaml:"side" rated:"true" example:"25 kN" above:"0 kN" doc:"What one bent, standing on its jacks, takes across the cell at header height."`
	Sill      units.Size2   `yaml:"sill" example:"120 x 100 mm" above:"0 mm" max:"1 m" doc:"Longitudinal sill, width x depth."`
	Strut     units.Size2   `yaml:"strut" example:"120 x 100 mm" above:"0 mm" max:"1 m" doc:"Cross strut between the sills at each bent, length along the cell x depth."`
	SillMass  *units.Number `yaml:"sill_mass" example:"18" above:"0" max:"1000" doc:"Mass of a sill in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
	StrutMass *units.Number `yaml:"strut_mass" example:"18" above:"0" max:"1000" doc:"Mass of a strut in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
}

// Leg of a bent.
type Leg struct {
	Section   units.Length  `yaml:"section" example:"120 mm" min:"40 mm" max:"1 m" doc:"Width of the square leg."`
	Length    Adjust        `yaml:"length" doc:"Sill top to header underside; the increment is the pin pitch."`
	Outer     units.Length  `yaml:"outer" above:"0 mm" max:"20 m" doc:"Length of the outer tube, from the sill up."`
	Inner     units.Length  `yaml:"inner" above:"0 mm" max:"20 m" doc:"Length of the inner tube, from the header down."`
	Axial     *units.Force  `yaml:"axial" rated:"true" example:"80 kN" above:"0 kN" max:"10000 kN" doc:"Load along a leg that it carries at its greatest length, buckling and pin counted."`
	Overlap   units.Length  `yaml:"overlap" above:"0 mm" max:"5 m" doc:"Least overlap of the two tubes."`
	OuterMass *units.Number `yaml:"outer_mass" example:"22" above:"0" max:"1000" doc:"Mass of the outer tube in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
	InnerMass *units.Number `yaml:"inner_mass" example:"18" above:"0" max:"1000" doc:"Mass of the inner tube in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
}

// Header of a bent: an outer tube, and for roof_halves two sliding arms.
type Header struct {
	Section units.Size2    `yaml:"section" example:"120 x 140 mm" above:"0 mm" max:"1 m" doc:"Outer tube: length along the cell x depth."`
	Length  units.Length   `yaml:"length" above:"0 m" max:"30 m" doc:"Length of the outer tube across the cell."`
	Moment  *units.Moment  `yaml:"moment" rated:"true" example:"20 kNm" above:"0 kNm" max:"10000 kNm" doc:"Bending moment that the outer tube carries."`
	Shear   *units.Force   `yaml:"shear" rated:"true" example:"90 kN" above:"0 kN" max:"10000 kN" doc:"Shear that the outer tube carries, at the arms' ends too."`
	Inertia *units.Inertia `yaml:"inertia" example:"900 cm4" above:"0 cm4" doc:"Second moment of area of the outer tube, with the arms where they run in it, of steel; of another material times its modulus over 210 GPa."`
	Mass    *units.Number  `yaml:"mass" example:"24" above:"0" max:"1000" doc:"Mass of the outer tube in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
	Arm     *Arm           `yaml:"arm" doc:"Sliding arms (roof_halves)."`
}

// Arm slides in the header tube.
type Arm struct {
	Section units.Size2    `yaml:"section" example:"100 x 120 mm" above:"0 mm" max:"1 m" doc:"Length along the cell x depth."`
	Length  units.Length   `yaml:"length" above:"0 m" max:"15 m" doc:"Length of one arm."`
	Behind  units.Length   `yaml:"behind" above:"0 mm" max:"5 m" doc:"Outer end behind the wall face."`
	Moment  *units.Moment  `yaml:"moment" rated:"true" example:"12 kNm" above:"0 kNm" max:"10000 kNm" doc:"Bending moment that an arm carries where it leaves the tube."`
	Shear   *units.Force   `yaml:"shear" rated:"true" example:"60 kN" above:"0 kN" max:"10000 kN" doc:"Shear that an arm carries, inside the tube too."`
	Inertia *units.Inertia `yaml:"inertia" example:"500 cm4" above:"0 cm4" doc:"Second moment of area of an arm, of steel; of another material times its modulus over 210 GPa."`
	Overlap units.Length   `yaml:"overlap" above:"0 mm" max:"5 m" doc:"Least length of arm inside the tube."`
	Mass    *units.Number  `yaml:"mass" example:"18" above:"0" max:"1000" doc:"Mass of an arm in kilograms per metre; left out, 0.08 to 0.40 of its envelope is steel (judgement)."`
}

// Jack is a screw jack under a leg. Its reading is the distance from the
// sill's underside to the plate's underside.
type Jack struct {
	Reading  Adjust        `yaml:"reading" doc:"Range of the reading."`
	Lower    units.Length  `yaml:"lower" above:"0 mm" max:"2 m" doc:"Lowering to the wheels to aim for when the legs are pinned."`
	Plate    units.Size3   `yaml:"plate" example:"150 x 150 x 15 mm" above:"0 mm" max:"2 m" doc:"Plate: length x width x thickness."`
	Screw    units.Length  `yaml:"screw" above:"0 mm" max:"500 mm" doc:"Width of the screw."`
	Capacity *JackCapacity `yaml:"capacity" rated:"true" example:"60 kN" doc:"What one jack carries: one value, or a list of {extension, capacity}, where it falls with the reading. Left out, or 0, it is not stated."`
}

// Wheels under the sills, between the bents.
type Wheels struct {
	Diameter units.Length   `yaml:"diameter" above:"0 mm" max:"2 m" doc:"Wheel diameter."`
	Tread    units.Length   `yaml:"tread" above:"0 mm" max:"1 m" doc:"Width of the tread."`
	Axle     units.Length   `yaml:"axle" above:"0 mm" max:"2 m" doc:"Axle below the sill's underside."`
	At       []units.Length `yaml:"at" maxitems:"12" doc:"Positions along the form from its rear end."`
	Swivel   bool           `yaml:"swivel" default:"false" doc:"Wheels that turn in plan by themselves; left out, they point along the carrier and scrub round a bend."`
	Side     units.Force    `yaml:"side" rated:"true" default:"0 kN" source:"not stated" min:"0 kN" doc:"What one wheel and its fork carry sideways; 0 is not stated."`
	Patch    units.Length   `yaml:"patch" default:"60 mm" source:"judgement" safer:"less" above:"0 mm" max:"1 m" doc:"Length of a tyre's contact with the invert under load, along the cell."`
	Capacity units.Force    `yaml:"capacity" rated:"true" default:"0 kN" source:"not stated" min:"0 kN" doc:"What one wheel carries; 0 is not stated."`
}

// Lifting jacks are moved from pad to pad under the sills; at each they lift one
// pass, and the screw jacks follow.
type Lifting struct {
	Pads     []units.Length `yaml:"pads" example:"1.05 m; 3.45 m" min:"0 m" max:"60 m" minitems:"2" maxitems:"20" doc:"Lifting pads along the form from its rear end, on both sides."`
	Capacity units.Force    `yaml:"capacity" rated:"true" example:"50 kN" above:"0 kN" doc:"What one lifting jack carries."`
	Stroke   units.Length   `yaml:"stroke" example:"160 mm" above:"0 mm" max:"2 m" doc:"Stroke of one lifting jack."`
	Pass     units.Length   `yaml:"pass" default:"10 mm" source:"common practice" safer:"more" min:"1 mm" max:"50 mm" doc:"Most that one pad is lifted before the next one follows; 10 mm is common practice."`
	Last     *units.Length  `yaml:"last" example:"3 mm" min:"1 mm" max:"50 mm" doc:"Pass of the last step of raising, which brings the roof up to its height and walls beside what is cast already; left out, it is pass."`
	Packing  units.Length   `yaml:"packing" default:"10 mm" source:"judgement" safer:"more" min:"0 mm" max:"200 mm" doc:"Stroke that play and packing take before the jack carries."`
}

// Ties through the walls at the walers.
type Ties struct {
	Spacing  units.Length `yaml:"spacing" default:"1.2 m" source:"common practice, 4 ft or 1.2 m" above:"0 m" max:"10 m" doc:"Spacing along the cell; 4 ft or 1.2 m is common practice."`
	Diameter units.Length `yaml:"diameter" default:"15 mm" source:"common practice" above:"0 mm" max:"100 mm" doc:"Diameter of the tie rod."`
	Capacity *units.Force `yaml:"capacity" rated:"true" example:"90 kN" above:"0 kN" doc:"What one tie takes, its anchorage on the waler included."`
}

// Link is a brace or turnbuckle: a straight bar of adjustable length between
// two pins. A driver sets its joint; a follower's length is worked out.
type Link struct {
	Name      string        `yaml:"name" maxlength:"60" doc:"The link's name; it stands on both sides, told apart as left and right."`
	Drives    string        `yaml:"drives" default:"" enum:"|wall|half" doc:"The body this link moves; left out, the link follows."`
	From      Pin           `yaml:"from" doc:"Pin on the body nearer the frame."`
	To        Pin           `yaml:"to" doc:"Pin on the body that moves."`
	Length    Adjust        `yaml:"length" doc:"Pin to pin."`
	Thickness units.Length  `yaml:"thickness" above:"0 mm" max:"500 mm" doc:"Thickness as a solid bar."`
	Axial     *units.Force  `yaml:"axial" rated:"true" example:"60 kN" above:"0 kN" doc:"Compression that one link takes at the length at which it stands raised, pins and their lugs included."`
	Steel     *Steel        `yaml:"steel" doc:"Its cross-section, A and I; a slender link without axial is held by Euler's formula with it."`
	Eye       units.Length  `yaml:"eye" default:"45 mm" source:"judgement" min:"0 mm" max:"1 m" doc:"How far short of each pin the bar ends."`
	Beside    units.Length  `yaml:"beside" min:"-2 m" max:"2 m" doc:"Along the cell from the bent's centre to the link's plane."`
	Mass      *units.Number `yaml:"mass" example:"6" above:"0" max:"1000" doc:"Mass in kilograms per metre; left out, 0.10 to 1 of its envelope is steel (judgement)."`
}

// Pin of a link on a body: one of out and behind, and one of the four heights.
type Pin struct {
	Body        string        `yaml:"body" enum:"frame|half|wall" doc:"The body the pin is on."`
	Out         *units.Length `yaml:"out" doc:"Out from the centreline."`
	Behind      *units.Length `yaml:"behind" doc:"Behind the wall face."`
	AboveSill   *units.Length `yaml:"above_sill" doc:"Above the sill's underside."`
	AboveHeader *units.Length `yaml:"above_header" doc:"Above the header's centre; negative is below."`
	AboveFoot   *units.Length `yaml:"above_foot" doc:"Above the wall panels' foot."`
	BelowTop    *units.Length `yaml:"below_top" doc:"Below the top of the plane wall face."`
}
