package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// runningGear is what runs low beside the toes of the bottom haunches.
var runningGear = map[carrier.Role]bool{carrier.Wheel: true, carrier.Fork: true, carrier.JackPlate: true, carrier.JackScrew: true}

// bowed is how far a part is thrown to one side of the way: at most with all
// turns at one angle point, at least with the greatest of them alone.
type bowed struct {
	toward      string
	least, most float64
	spare       float64 // by which the concrete stands back from the formula
}

// bows are the throws of a part to both sides of the way.
func (r *bending) bows(x0, x1, half float64) ([2]bowed, error) {
	in, out, err := r.thrown(x0, x1, r.turning.all)
	if err != nil {
		return [2]bowed{}, err
	}
	in1, out1, err := r.thrown(x0, x1, r.turning.single)
	// mitred corners stand at 1/cos(phi/2) of the half span from the angle point,
	// and an open joint cuts them off
	corner := r.bay.Cell.HalfSpan*(1/math.Cos(r.turning.single/2)-1) + r.gap/2*math.Tan(r.turning.single/2)
	turned := half * (1 - math.Cos(r.turning.single))
	return [2]bowed{{"inside", in1, in, corner}, {"outside", out1, out, turned}}, err
}

// swept are the candidates of one part: every vertex against every face, on
// either side of the bend. The lower end is the hand formula with all turns at
// one point; the upper end has the greatest of them alone, and the concrete as
// far back as it can be.
func (r *bending) swept(part int, faces []face) ([]candidate, error) {
	p := r.bay.Carrier.Parts[part]
	pose := r.bay.Steps[len(r.bay.Steps)-1].Pose(p.Body)
	x0, x1, half := math.Inf(1), math.Inf(-1), 0.0
	for _, v := range p.Vertices {
		w := pose.Apply(v)
		x0, x1, half = math.Min(x0, w[0]), math.Max(x1, w[0]), math.Max(half, math.Abs(w[1]))
	}
	bows, err := r.bows(x0, x1, half)
	if err != nil {
		return nil, err
	}
	var out []candidate
	for _, v := range p.Vertices {
		w := pose.Apply(v)
		for _, f := range faces {
			d := f.distance(math.Abs(w[1]), w[2])
			if d > measure.Far+f.n*math.Max(bows[0].most, bows[1].most) {
				continue
			}
			for _, b := range bows {
				c := r.passing(part, f, b, math.Abs(w[1]), w[2], d)
				c.working = func() []result.Line { return r.workedSwept(x0, x1, f, b, d) }
				out = append(out, c)
			}
		}
	}
	return out, nil
}

// passing is one vertex past one face on one side of the bend.
func (r *bending) passing(part int, f face, b bowed, y, z, d float64) candidate {
	zone := f.zone
	if zone == culvert.Wall && z <= r.bay.Cell.Kicker {
		zone = culvert.Kicker
	}
	a := r.bay.Tol.Of(zone)
	// the carrier leans with a crossfall of the invert, the walls stand plumb
	tilt := math.Abs(r.bay.Crossfall) * (f.n*z + math.Sqrt(1-f.n*f.n)*y)
	v := result.Between(d-f.n*b.most, d-f.n*(b.least-b.spare))
	tell := func() (result.Where, string) {
		w := r.bay.underway()
		w.Part, w.Zone = r.bay.Carrier.Parts[part].At(), string(zone)
		return w, fmt.Sprintf("%s at half width %s is %s clear of the %s on the straight; %s throws it %s to the %s%s and leaves %s; %s; steered the best way it would be %s to each side",
			r.bay.label(part), r.bay.mm(y), r.bay.mm(d), zone.Words(), r.turning.words(), r.bay.mm(b.most), b.toward, r.squarely(f, b), r.bay.mm(v.Lower), r.bay.allowed(a, tilt), r.bay.mm(r.steered(r.turning.all)))
	}
	return candidate{Value: v, Allowance: a.RootSumSquare + tilt, worst: a.WorstCase + tilt, Part: part, Zone: zone, tell: tell}
}

// squarely says what a throw takes square to an inclined face.
func (r *bending) squarely(f face, b bowed) string {
	if f.n == 1 {
		return ""
	}
	return fmt.Sprintf(", %s square to it,", r.bay.mm(f.n*b.most))
}
