package load

import (
	"encoding/binary"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"math"
	"math/rand"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boxwalk/model/units"
)

// answers holds every exported function and method that may return an error,
// by its name in the source.
var answers = map[string]any{
	"Chemistry": Chemistry, "ACI347InchPound": ACI347InchPound, "ACI347SI": ACI347SI,
	"Envelope.At": Envelope.At, "Envelope.Resultant": Envelope.Resultant, "TieLoad": TieLoad, "MemberLoad": MemberLoad,
	"DeliveryOf": DeliveryOf, "RiseRate": RiseRate, "CIRIA108.Pressure": CIRIA108.Pressure, "DIN18218.Pressure": DIN18218.Pressure,
	"ACI209.Ratio": ACI209.Ratio, "ACI209.EarliestAge": ACI209.EarliestAge,
	"CementClass.Beta": CementClass.Beta, "CementClass.EarliestAge": CementClass.EarliestAge, "CementClass.MeanAt": CementClass.MeanAt,
	"CementClass.CharacteristicAt": CementClass.CharacteristicAt, "CementClass.TensileRatio": CementClass.TensileRatio,
	"NurseSaul.Of": NurseSaul.Of, "NurseSaul.Reach": NurseSaul.Reach, "QOf": QOf,
	"Arrhenius.Of": Arrhenius.Of, "Arrhenius.Reach": Arrhenius.Reach,
	"MC90.Factor": MC90.Factor, "MC90.Of": MC90.Of, "MC90.At": MC90.At, "MC90.Reach": MC90.Reach,
	"Plowman.Strength": Plowman.Strength, "Hyperbola.Strength": Hyperbola.Strength, "Exponential.Strength": Exponential.Strength,
	"SoffitStrip": SoffitStrip, "CarrierStrip": CarrierStrip, "CountedTime": CountedTime, "ReleaseAfter": ReleaseAfter,
	"ConcreteOf": ConcreteOf, "LineContact": LineContact, "BearingStrength": BearingStrength, "HangerPlate.Bending": HangerPlate.Bending, "HangerPlate.PunchingPlain": HangerPlate.PunchingPlain, "Patch.Areas": Patch.Areas,
	"Invert.Equivalent": Invert.Equivalent, "Invert.StrengthNow": Invert.StrengthNow, "Patch.OnConcrete": Patch.OnConcrete,
	"Pull": Pull, "HoldsItself": HoldsItself, "Rolling.Demands": Rolling.Demands, "Against": Against, "LeverArm.Coefficient": LeverArm.Coefficient,
	"Wheels.Rigid": Wheels.Rigid, "Wheels.Soft": Wheels.Soft, "Wheels.Standing": Wheels.Standing, "Wheels.Rocking": Wheels.Rocking, "Wheels.TippingLevers": Wheels.TippingLevers,
	"Tipping.Margin": Tipping.Margin, "Roof.ACI347": Roof.ACI347, "Roof.California": Roof.California, "AASHTOTemporary": AASHTOTemporary,
	"SlabBracing": SlabBracing, "WallBracing": WallBracing, "BraceLoad": BraceLoad,
	"Screw.Torque": Screw.Torque, "TorqueByEfficiency": TorqueByEfficiency,
	"Lifting.Loads": Lifting.Loads, "Stroke": Stroke, "Tilt": Tilt, "Bend.OffCourse": Bend.OffCourse, "Bend.Slip": Bend.Slip, "Bend.Scrub": Bend.Scrub,
	"Envelope.Diagram": Envelope.Diagram, "Diagram.Check": Diagram.Check, "Diagram.On": Diagram.On, "Diagram.TieLoads": Diagram.TieLoads, "Diagram.OnFaces": Diagram.OnFaces, "Diagram.OnBulkhead": Diagram.OnBulkhead,
	"Floating.Margin": Floating.Margin, "Sliding.Margin": Sliding.Margin, "History.Covers": History.Covers, "Wind": Wind, "Free.Sideways": Free.Sideways,
}

// The list above is held against the source, so that a new function is fuzzed.
func TestEveryFunctionThatMayFailIsFuzzed(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	found := 0
	for _, file := range files {
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || !f.Name.IsExported() || !mayFail(f) {
				continue
			}
			found++
			if name := nameOf(f); answers[name] == nil {
				t.Errorf("%s is not fuzzed", name)
			}
		}
	}
	if found != len(answers) {
		t.Errorf("%d functions in the source, %d in the list", found, len(answers))
	}
}

func mayFail(f *ast.FuncDecl) bool {
	if f.Type.Results == nil || f.Name.Name == "Unwrap" {
		return false
	}
	results := f.Type.Results.List
	last, ok := results[len(results)-1].Type.(*ast.Ident)
	return ok && last.Name == "error"
}

func nameOf(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return f.Name.Name
	}
	return f.Recv.List[0].Type.(*ast.Ident).Name + "." + f.Name.Name
}

var nasty = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 1, math.MaxFloat64, -math.MaxFloat64,
	math.SmallestNonzeroFloat64, 1e-300, 1e300, 28 * day, 3 * day, 12 * hour, 0.5,
}

// scales are sizes at which some quantity of this package is likely sane.
var scales = []float64{1e-4, 1e-3, 0.01, 0.1, 1, 3, 10, 25, 100, 273.1, 1, 1e3, 5e3, 3e4, hour, day, 7 * day, 30 * mpa, 2e8}

// numbers turns bytes into the arguments of a call.
type numbers struct{ data []byte }

func (n *numbers) byte() byte {
	if len(n.data) == 0 {
		return 0
	}
	b := n.data[0]
	n.data = n.data[1:]
	return b
}

// likely holds the range in which a quantity is usually sane.
var likely = map[reflect.Type][2]float64{
	reflect.TypeFor[units.Temperature](): {0, 45}, reflect.TypeFor[units.Duration](): {0, 30 * day}, reflect.TypeFor[EquivalentAge](): {0, 30 * day},
	reflect.TypeFor[units.UnitWeight](): {10, 45}, reflect.TypeFor[units.Pressure](): {0, 100 * mpa},
	reflect.TypeFor[units.Length](): {0, 12}, reflect.TypeFor[units.Rate](): {0, 10 / hour},
	reflect.TypeFor[units.Slope](): {-0.2, 0.2}, reflect.TypeFor[units.Angle](): {0, 1},
}

// float: of 16 numbers one is nasty, one is any bits, the others lie in a
// likely range of their type.
func (n *numbers) float(kind reflect.Type) float64 {
	choice, part := n.byte(), float64(n.byte())/255
	switch {
	case choice < 16:
		return nasty[choice]
	case choice < 32:
		bits := make([]byte, 8)
		for i := range bits {
			bits[i] = n.byte()
		}
		return math.Float64frombits(binary.LittleEndian.Uint64(bits))
	}
	if r, ok := likely[kind]; ok {
		return r[0] + (r[1]-r[0])*part
	}
	return scales[int(choice)%len(scales)] * min(1, part*1.3)
}

func (n *numbers) fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(n.float(v.Type()))
	case reflect.Uint8:
		v.SetUint(uint64(n.byte() % 8))
	case reflect.Int:
		v.SetInt(int64(n.byte()) - 2)
	case reflect.Bool:
		v.SetBool(n.byte()%2 == 1)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), int(n.byte()%6), 6))
		for i := range v.Len() {
			n.fill(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			n.fill(v.Field(i))
		}
	}
}

// finiteEverywhere reports whether no float inside is NaN or infinite.
func finiteEverywhere(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Slice:
		for i := range v.Len() {
			if !finiteEverywhere(v.Index(i)) {
				return false
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !finiteEverywhere(v.Field(i)) {
				return false
			}
		}
	}
	return true
}

// call runs one function on arguments made from bytes and reports whether it
// answered.
func call(t *testing.T, name string, data []byte) bool {
	f, n := reflect.ValueOf(answers[name]), &numbers{data}
	var args []reflect.Value
	for i := range f.Type().NumIn() {
		arg := reflect.New(f.Type().In(i)).Elem()
		n.fill(arg)
		args = append(args, arg)
	}
	out := f.Call(args)
	failed := !out[len(out)-1].IsNil()
	for _, v := range out[:len(out)-1] {
		if failed && !v.IsZero() {
			t.Fatalf("%s%v: an error and %v", name, args, v)
		}
		if !finiteEverywhere(v) {
			t.Fatalf("%s%v: %v without an error", name, args, v)
		}
	}
	return !failed
}

// FuzzNoNumberWithoutMeaning: whatever goes in, what comes out is finite, or it
// is an error and nothing else.
func FuzzNoNumberWithoutMeaning(f *testing.F) {
	r := rand.New(rand.NewSource(1))
	for range 40 {
		seed := make([]byte, 120)
		r.Read(seed)
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, name := range slices.Sorted(maps.Keys(answers)) {
			call(t, name, data)
		}
	})
}

// The same with many seeded draws; each function must both answer and refuse,
// or the draws would prove nothing about it.
func TestNoNumberWithoutMeaning(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(answers)) {
		r := rand.New(rand.NewSource(2))
		answered, refused := 0, 0
		data := make([]byte, 160)
		for draw := 0; draw < 2000 || (answered == 0 && draw < 400000); draw++ {
			r.Read(data)
			if call(t, name, data) {
				answered++
			} else {
				refused++
			}
		}
		if answered == 0 || refused == 0 {
			t.Errorf("%s: %d answers, %d refusals", name, answered, refused)
		}
	}
}
