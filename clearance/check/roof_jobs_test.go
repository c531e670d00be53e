package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// over is a beam that runs over supports by hand: three moments, hogging above 0. Ends
// that stand out are moments over the outer supports; spans of one load each.
type over struct {
	spans       []float64
	left, right float64 // how far it stands out
}

// hand are moments over the supports and what they give, of 1 kN/m on some parts: 0 is
// what stands out on the left, the last what stands out on the right.
func (o over) hand(on func(part int) bool) (moments, up []float64) {
	n := len(o.spans)
	q := make([]float64, n+2)
	for i := range q {
		if on(i) {
			q[i] = 1
		}
	}
	m := make([]float64, n+1)
	m[0], m[n] = q[0]*o.left*o.left/2, q[n+1]*o.right*o.right/2
	// Gauss-Seidel: the equations are diagonally dominant
	for range 200 {
		for i := 1; i < n; i++ {
			l, r := o.spans[i-1], o.spans[i]
			m[i] = ((q[i]*l*l*l+q[i+1]*r*r*r)/4 - m[i-1]*l - m[i+1]*r) / (2 * (l + r))
		}
	}
	up = make([]float64, n+1)
	up[0], up[n] = q[0]*o.left, q[n+1]*o.right
	for i, l := range o.spans {
		shear := (m[i] - m[i+1]) / l
		up[i] += q[i+1]*l/2 + shear
		up[i+1] += q[i+1]*l/2 - shear
	}
	return m, up
}

// most is the most that a support gives of 1 kN/m on any parts, and what it gives of all.
func (o over) most(support int) (most, all float64) {
	for part := range len(o.spans) + 2 {
		_, up := o.hand(func(i int) bool { return i == part })
		most, all = most+math.Max(0, up[support]), all+up[support]
	}
	return most, all
}

// shortForm are the stringers of the short form: bents at 0.6, 1.8, 3.0 and 4.2 of 4.8 m.
var shortForm = over{[]float64{1.2, 1.2, 1.2}, 0.6, 0.6}

// weighs is what parts of some roles weigh at most, kN, with 10 kg/m² on their faces.
func weighs(b *model.Bay, of func(p carrier.Part) bool) float64 {
	var kg float64
	for _, p := range b.Carrier.Parts {
		if of(p) {
			kg += p.Mass.High + 10*p.Face
		}
	}
	return kg * 9.80665e-3
}

// Heath Lane: a slab of 0.30 m, 26 x 0.30 = 7.8 kPa, and 14.5 kPa of bars, on a half 0.18 to
// 1.50 from the centreline, cut at its stringers, 0.27, 0.74 and 1.24. A panel hands each
// strip to its stringers with the strip's moment, so that a leg at 0.90 gets of a strip at
// y the share (0.90 + y)/1.80, and those beyond the other leg lift it.
func TestAJackUnderBarsStackedOnTheRoofFails(t *testing.T) {
	s := jobFile(t, "heath-lane")
	r := Run(s, Options{Version: "test"})
	failsBy(t, r, "pour.jacks")
	q := 26*0.30 + 14.5
	var poured, lifts float64
	strip := func(y, load float64) {
		for _, side := range [2]float64{1, -1} {
			share := load * (0.90 + side*y) / 1.80
			poured, lifts = poured+math.Max(0, share), lifts+math.Min(0, share)
		}
	}
	strip(0.225, q*0.09)
	strip(0.505, q*0.47)
	strip(0.99, q*0.50)
	haunch := 26 * 0.20 * 0.20 / 2
	strip((1.37*q*0.26+(1.50-0.20/3)*haunch)/(q*0.26+haunch), q*0.26+haunch)
	strip(0.18, q*0.18) // half of the filler each
	b := &s.Bays[0]
	line := weighs(b, func(p carrier.Part) bool {
		switch p.Role {
		case carrier.Header, carrier.Arm, carrier.Leg, carrier.Sill, carrier.Strut, carrier.Fork, carrier.Wheel, carrier.JackScrew, carrier.JackPlate:
			return false
		}
		return true
	}) / 4.80
	bent := weighs(b, func(carrier.Part) bool { return true }) - 4.80*line
	var want float64
	for support := range 4 {
		most, all := shortForm.most(support)
		// what lifts a leg presses it down from spans that take the stringers off its bent
		want = math.Max(want, most*poured+(all-most)*lifts+all*line/2+bent/4/2+1.5*all*2.4/1.8)
	}
	governs(t, r, "pour.jacks", "screw jacks", result.Fail, want, percent(want))
}

// Bramble Ford: the slab spans 1.625 from half of a wall's 0.25 to the hangers and as far
// to the other wall. 1 kN at a from a wall brings (3 a l² - a³)/(2 l³) to the hangers. A
// hanger has of its line what the bent above which it stands has of a stringer.
func TestARodUnderItsShareOfTheSlabFails(t *testing.T) {
	r := checkFile(t, "bramble-ford")
	failsBy(t, r, "pour.hangers")
	const l, n = 1.625, 100000
	var slab, people float64
	for i := range n {
		a := (float64(i) + 0.5) * l / n
		share := (3*a*l*l - a*a*a) / (2 * l * l * l) * l / n
		people += 2 * share
		if y := 1.625 - a; y < 1.50 {
			slab += 2 * share * (0.30 + math.Max(0, y-1.30))
		}
	}
	most := 0.0
	for support := range 4 {
		one, _ := shortForm.most(support)
		most = math.Max(most, one)
	}
	want := (26*slab + 2.4*people) * most
	governs(t, r, "pour.hangers", "rods", result.Fail, want, percent(want)/10)
}

// Teal Brook: a stringer stands out 0.6 beyond the last bent, and its end sags there.
// Over that bent it turns by M l/3 + M' l/6 - q l³/24, and the end sags by 0.6 of that and
// q 0.6⁴/8 of its own: any spans loaded, E I = 210e6 x 130e-8.
func TestAFormThatSagsMoreThanTheSpecificationLetsItFails(t *testing.T) {
	s := jobFile(t, "teal-brook")
	r := Run(s, Options{Version: "test"})
	failsBy(t, r, "pour.roof")
	var c float64
	for part := range 5 {
		m, _ := shortForm.hand(func(i int) bool { return i == part })
		sag := 0.6 * (m[0]*1.2/3 + m[1]*1.2/6)
		switch part {
		case 0:
			sag += 0.6 * 0.6 * 0.6 * 0.6 / 8
		case 1:
			sag -= 0.6 * 1.2 * 1.2 * 1.2 / 24
		}
		c += math.Max(0, sag)
	}
	// the outer stringer has most: its panels as three supports, strip by strip
	panels := over{[]float64{0.50, 0.47}, 0.26, 0.09}
	var slab, people float64
	for part := range 4 {
		_, up := panels.hand(func(i int) bool { return i == part })
		slab, people = slab+math.Max(0, 0.30*up[0]), people+math.Max(0, up[0])
	}
	// of the haunch, its centre 0.1933 out, and of half the filler on the edge, 0.09 beyond
	// the inner stringer: moments over the outer supports that go on by a quarter or so
	outer, inner := 0.02*(0.06+0.20*2/3), 0.18*0.09
	middle := func(left, right float64) float64 { return (-left*0.50 - right*0.47) / (2 * 0.97) }
	slab += 0.02 + (outer-middle(outer, 0))/0.50 + math.Max(0, 0.30*(0-middle(0, inner))/0.50)
	people += math.Max(0, (0-middle(0, inner))/0.50)
	b := &s.Bays[0]
	soffit := weighs(b, func(p carrier.Part) bool { return p.Role.Faced() && !b.Carrier.OnWall(p) }) / 4.80 / 3.0
	own := weighs(b, func(p carrier.Part) bool { return p.Role == carrier.Stringer || p.Role == carrier.Pad }) / 4.80 / 6
	_, all := panels.hand(func(int) bool { return true })
	dead := own + soffit*(all[0]+(0-middle(0, inner))/0.50)
	want := 1e3 * (dead + 26*slab + 2.4*people) * c / (210e6 * 130e-8)
	for _, e := range r.Checks {
		if e.ID == "pour.roof" && e.Subject.What == "stringers, sag" && e.Value != nil && math.Abs(1e3*e.Value.Upper-want) > percent(want) {
			t.Errorf("%s: %.4f mm, by hand %.4f", e.Subject, 1e3*e.Value.Upper, want)
		}
	}
}

// A stringer, a header, an arm, a leg: each fails by itself where its capacity is below
// its load, passes above, and is open and names the key where none is stated.
func TestWhatThePourBringsIsHeldAgainstWhatIsStated(t *testing.T) {
	for _, c := range []struct{ id, rest, key, line, small string }{
		{"pour.roof", "roof panels", "roof.pressure", "pressure: 30 kPa", "pressure: 10 kPa"},
		{"pour.roof", "stringers, bending", "roof.stringers.moment", "moment: 5 kNm", "moment: 1 kNm"},
		{"pour.roof", "stringers, shear", "roof.stringers.shear", "shear: 40 kN", "shear: 4 kN"},
		{"pour.header", "header, bending", "frame.header.moment", "    moment: 30 kNm", "    moment: 2 kNm"},
		{"pour.header", "header, shear", "frame.header.shear", "    shear: 120 kN", "    shear: 9 kN"},
		{"pour.header", "arm, bending", "frame.header.arm.moment", "moment: 18 kNm", "moment: 1 kNm"},
		{"pour.header", "arm, shear", "frame.header.arm.shear", "shear: 90 kN", "shear: 7 kN"},
		{"pour.jacks", "legs", "frame.leg.axial", "    axial: 95 kN", "    axial: 9 kN"},
		{"pour.jacks", "screw jacks", "jack.capacity", "screw: 60 mm, capacity: 60 kN", "screw: 60 mm, capacity: [{extension: 200 mm, capacity: 60 kN}, {extension: 350 mm, capacity: 20 kN}]"},
	} {
		for text, want := range map[string]result.Verdict{c.line: result.Pass, c.small: result.Fail, "": result.Open} {
			swap := [2]string{c.line, text}
			switch {
			case text == "" && c.line[0] == ' ':
				swap = [2]string{c.line + "\n", ""}
			case text == "" && c.key == "jack.capacity":
				swap = [2]string{c.line, "screw: 60 mm"}
			case text == "" && c.key == "roof.pressure":
				swap = [2]string{"  " + c.line + "\n", ""}
			case text == "":
				swap = [2]string{", " + c.line, ""}
			}
			e := pours(t, c.id, c.rest, chain{Gear: "roof-halves-24", Swap: [][2]string{swap}})
			if e.Verdict != want {
				t.Errorf("%s with %q: %v: %s", c.rest, text, e.Verdict, e.Text)
			}
			if text == "" {
				says(t, e, c.key, "gear file")
			}
		}
	}
}

// pours is an entry of the first bay's pour.
func pours(t *testing.T, id, rest string, c chain) result.Entry {
	t.Helper()
	e, ok := checkOf(Run(c.Study(t), Options{Only: []string{id}, Brief: true}), id, 1, 1, rest)
	if !ok {
		t.Fatalf("no %s %s", id, rest)
	}
	return e
}

// A table of a jack: 60 kN at 200 mm, 20 kN at 350 mm; at 330 mm 60 - 40 x 130/150 kN.
func TestAJackCarriesLessTheFurtherItIsOut(t *testing.T) {
	e := pours(t, "pour.jacks", "screw jacks", chain{Gear: "roof-halves-24", Swap: [][2]string{{"screw: 60 mm, capacity: 60 kN", "screw: 60 mm, capacity: [{extension: 200 mm, capacity: 60 kN}, {extension: 350 mm, capacity: 20 kN}]"}}})
	if want := 60 - 40*130.0/150; e.Limit == nil || math.Abs(*e.Limit-want) > 1e-9 {
		t.Errorf("limit %v, want %v", e.Limit, want)
	}
	if e := pours(t, "pour.jacks", "screw jacks", chain{Gear: "roof-halves-24", Swap: [][2]string{{"screw: 60 mm, capacity: 60 kN", "screw: 60 mm, capacity: [{extension: 200 mm, capacity: 60 kN}]"}}}); e.Verdict != result.Open {
		t.Errorf("a reading beyond the table is %v", e.Verdict)
	}
}

// Factored, every share has its factor: form 1.35, concrete and people 1.5.
func TestFactoredCapacitiesTakeTheFactorsOfThePour(t *testing.T) {
	c := chain{Gear: "roof-halves-24"}
	as := pours(t, "pour.roof", "roof panels", c)
	c.Swap = [][2]string{{"basis: permissible", "basis: factored"}}
	factored := pours(t, "pour.roof", "roof panels", c)
	form := as.Value.Upper - 26*0.3 - 2.4
	if want := 1.35*form + 1.5*(26*0.3+2.4); math.Abs(factored.Value.Upper-want) > 1e-9 {
		t.Errorf("%v, want %v", factored.Value.Upper, want)
	}
}

// 4.8 kPa at least by ACI 347: a thin slab has as much live load as it takes to that.
func TestTheLeastTotalLoadCountsOnAThinSlab(t *testing.T) {
	// 13 x 0.1 + 2.4 + 0.7 kPa of form
	light := [2]string{"concrete: {", "concrete: {unit_weight: 12 kN/m3, "}
	e := pours(t, "pour.roof", "roof panels", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"roof: 300 mm", "roof: 100 mm"}, light}})
	if math.Abs(e.Value.Upper-4.8) > 1e-9 {
		t.Errorf("%v", e.Value)
	}
	e = pours(t, "pour.roof", "roof panels", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pour: {", "pour: {roof: {carts: motorised}, "}, {"roof: 300 mm", "roof: 100 mm"}, light}})
	if math.Abs(e.Value.Upper-6.0) > 1e-9 {
		t.Errorf("with carts %v", e.Value)
	}
}

// Where the header does not suffice a shore under it does, and the remedy names where:
// written into the job it passes, and the shore is held against its own capacity.
func TestARemedyNamesShoresThatDo(t *testing.T) {
	c := chain{Gear: "roof-whole-24", Swap: [][2]string{{"header: {section: 120 x 140 mm, length: 2440 mm, mass: 26.4, moment: 30 kNm", "header: {section: 120 x 140 mm, length: 2440 mm, mass: 26.4, moment: 7 kNm"}}}
	e := pours(t, "pour.header", "header, bending", c)
	if e.Verdict != result.Fail {
		t.Fatalf("%v: %s", e.Verdict, e.Text)
	}
	if !strings.Contains(e.Remedy, "pour: {shores: [{at: 0 mm}]}") {
		t.Errorf("remedy: %s", e.Remedy)
	}
	c.Jobs = [][2]string{{"pour: {", "pour: {shores: [{at: 0 m, capacity: 40 kN}], "}}
	if e := pours(t, "pour.header", "header, bending", c); e.Verdict != result.Pass {
		t.Errorf("with a shore %v: %s", e.Verdict, e.Text)
	}
	if e := pours(t, "pour.jacks", "shore 1", c); e.Verdict != result.Pass || e.Value.Upper < 10 {
		t.Errorf("the shore is %v: %s", e.Verdict, e.Text)
	}
	c.Jobs[0][1] = "pour: {shores: [{at: 2 m, capacity: 40 kN}], "
	if e := pours(t, "pour.header", "roof", c); e.Verdict != result.Open {
		t.Errorf("a shore beside the tube: %v", e.Verdict)
	}
}

// Hangers: each number against what is stated, and what is not stated is open.
func TestHangersAreHeldAgainstWhatIsStated(t *testing.T) {
	for _, c := range []struct{ rest, line, small string }{
		{"rods", "rod_capacity: 120 kN", "rod_capacity: 12 kN"},
		{"plates, bending", "plate_stress: 160 MPa", "plate_stress: 16 MPa"},
		{"beams above, bending", "moment: 120 kNm", "moment: 1 kNm"},
		{"beams above, shear", "shear: 90 kN", "shear: 1 kN"},
	} {
		for text, want := range map[string]result.Verdict{c.line: result.Pass, c.small: result.Fail, "": result.Open} {
			swap := [2]string{c.line, text}
			if text == "" {
				swap = [2]string{c.line + ", ", ""}
			}
			if text == "" && c.rest == "plates, bending" || c.rest == "rods" && text == "" {
				swap = [2]string{", " + c.line, ""}
			}
			if e := pours(t, "pour.hangers", c.rest, chain{Gear: "roof-halves-24", Jobs: [][2]string{swap}}); e.Verdict != want {
				t.Errorf("%s with %q: %v: %s", c.rest, text, e.Verdict, e.Text)
			}
		}
	}
	for _, rest := range []string{"plates, bearing", "plates, punching"} {
		if e := pours(t, "pour.hangers", rest, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"roof_strength: 21 MPa", "roof_strength: 1 MPa"}}}); e.Verdict == result.Pass && rest == "plates, bearing" {
			t.Errorf("%s at 1 MPa: %v", rest, e)
		}
	}
	if e := pours(t, "pour.hangers", "hangers", chain{Gear: "roof-halves-24", Jobs: noHangers}); e.Verdict != result.Pass || e.Value != nil {
		t.Errorf("without hangers: %+v", e)
	}
}
