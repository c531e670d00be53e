package step

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/worked"
	"boxwalk/export/assembly"
	"boxwalk/model/carrier"

	"pgregory.net/rapid"
)

// written is the demo's carrier in a state.
func written(t *testing.T, state string) string {
	t.Helper()
	s := worked.Job(t, "quarry-lane")
	at, err := assembly.Named(&s.Bays[0], state)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Encode(&out, assembly.Of(&s.Bays[0], at), Head{Name: "a.step", Origin: "test"}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// instances are the lines of the data section by their numbers.
func instances(t *testing.T, text string) map[string]string {
	t.Helper()
	out := map[string]string{}
	_, data, _ := strings.Cut(text, "DATA;\n")
	data, _, _ = strings.Cut(data, "ENDSEC;")
	for _, line := range strings.Split(strings.TrimSpace(data), "\n") {
		name, what, ok := strings.Cut(strings.TrimSuffix(line, ";"), "=")
		if !ok || out[name] != "" {
			t.Fatalf("no instance, or one twice: %q", line)
		}
		out[name] = what
	}
	return out
}

var (
	reference = regexp.MustCompile(`#[0-9]+`)
	quoted    = regexp.MustCompile(`'[^']*'`)
	oriented  = regexp.MustCompile(`^ORIENTED_EDGE\('',\*,\*,(#[0-9]+),\.([TF])\.\)$`)
)

func TestEveryReferenceIsToAnInstanceThatStands(t *testing.T) {
	all := instances(t, written(t, "collapsed"))
	for name, what := range all {
		for _, r := range reference.FindAllString(quoted.ReplaceAllString(what, ""), -1) {
			if all[r] == "" {
				t.Errorf("%s refers to %s: %s", name, r, what)
			}
		}
	}
}

// A shell is closed when its faces run along each edge once in each direction; readers
// heal and skip what is not, and say nothing.
func TestEveryEdgeIsUsedOnceInEachDirection(t *testing.T) {
	used := map[string]map[string]int{}
	all := instances(t, written(t, "raised"))
	edges := 0
	for _, what := range all {
		if m := oriented.FindStringSubmatch(what); m != nil {
			if used[m[1]] == nil {
				used[m[1]] = map[string]int{}
			}
			used[m[1]][m[2]]++
		}
		if strings.HasPrefix(what, "EDGE_CURVE(") {
			edges++
		}
	}
	for edge, sense := range used {
		if sense["T"] != 1 || sense["F"] != 1 {
			t.Errorf("%s is used %d times along it and %d times against it", edge, sense["T"], sense["F"])
		}
	}
	if len(used) != edges || edges == 0 {
		t.Errorf("%d edges, %d used", edges, len(used))
	}
}

func TestTheSameAssemblyGivesTheSameBytes(t *testing.T) {
	if first, second := written(t, "raised"), written(t, "raised"); first != second {
		t.Error("two files of one assembly differ")
	}
}

// 8 headers of one shape are one product that is placed 8 times.
func TestPartsOfOneShapeAreOneProductPlacedAsOftenAsTheyStand(t *testing.T) {
	text := written(t, "raised")
	products, placed := strings.Count(text, "=PRODUCT('header H"), strings.Count(text, ",'H")
	if products != 1 || placed != 8 {
		t.Errorf("%d products of headers, %d placed", products, placed)
	}
}

// The parts list has a line for each mark, and the file a product; of a link two, because
// its halves are of different bodies.
func TestAMarkIsOneProduct(t *testing.T) {
	s := worked.Job(t, "four-cells")
	a := assembly.Of(&s.Bays[0], assembly.Raised)
	var out bytes.Buffer
	if err := Encode(&out, a, Head{}); err != nil {
		t.Fatal(err)
	}
	marks := map[string]bool{}
	for _, g := range a.Groups {
		for _, p := range g.Pieces {
			if !g.Still && !marks[p.Name+" "+p.Mark] {
				marks[p.Name+" "+p.Mark] = true
				want := 1
				if p.Role == carrier.LinkBar {
					want = 2
				}
				if n := strings.Count(out.String(), "=PRODUCT("+text(p.Name+" "+p.Mark)+","); n != want {
					t.Errorf("%s %s is %d products", p.Name, p.Mark, n)
				}
			}
		}
	}
	if len(marks) < 20 {
		t.Errorf("%d marks", len(marks))
	}
}

// A wheel is a cylinder: one round face, two plane ones.
func TestWheelsAreTrueCylinders(t *testing.T) {
	text := written(t, "collapsed")
	if n := strings.Count(text, "CYLINDRICAL_SURFACE"); n == 0 || strings.Count(text, "CIRCLE") != 2*n {
		t.Errorf("%d round faces, %d circles", n, strings.Count(text, "CIRCLE"))
	}
}

func TestHostileNamesStayOneText(t *testing.T) {
	for in, want := range map[string]string{
		"it's": "'it''s'", `a\b`: `'a\\b'`, "é": `'\X2\00E9\X0\'`, "a\n#1=": `'a\X2\000A\X0\#1='`, "🛠": `'\X4\0001F6E0\X0\'`,
	} {
		if got := text(in); got != want {
			t.Errorf("%q is written %s, want %s", in, got, want)
		}
	}
}

// A REAL has a point and reads back as it was.
func TestNumbersAreRealsThatReadBack(t *testing.T) {
	shape := regexp.MustCompile(`^-?[0-9]+\.[0-9]*(E[+-]?[0-9]+)?$`)
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		s := exactly(v)
		var back float64
		if _, err := fmt.Sscan(strings.Replace(s, ".E", ".0E", 1), &back); err != nil || back != v || !shape.MatchString(s) {
			t.Fatalf("%v is written %s", v, s)
		}
	})
}
