package job

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// mostCharacters is the longest text of one value; what is longer does not fit
// a title block or a step card.
const mostCharacters = 400

// mostMarks is how many marks a letter may carry, judgement: any script has
// fewer, and more run into the lines above and below.
const mostMarks = 4

// written is a scalar text and the node to blame for it.
type written struct {
	node ast.Node
	text string
}

// scalarNode reads a node that must be a scalar.
func (d *Decoder) scalarNode(n ast.Node, path string, v reflect.Value, r *rule) {
	text, ok := scalarText(n)
	if !ok {
		d.Fail(n, path, "is "+described(n)+"; "+expected(v.Type())+" is expected", "", "write "+d.example(v.Type(), r))
		return
	}
	d.scalar(r.of(v.Type()), written{n, text}, path, v)
}

// expected names what a scalar type holds.
func expected(t reflect.Type) string {
	if kind, ok := kindOf(t); ok {
		return kind.String()
	}
	switch {
	case sizeOf(t) > 0:
		return "a size"
	case t.Kind() == reflect.Int:
		return "a whole number"
	case t.Kind() == reflect.Bool:
		return "true or false"
	}
	return "a text"
}

// scalar reads a text by the type of v.
func (d *Decoder) scalar(r *rule, w written, path string, v reflect.Value) {
	_, quantity := kindOf(v.Type())
	switch {
	case quantity:
		if si, ok := d.quantity(r, w, path); ok {
			v.SetFloat(si)
		}
	case sizeOf(v.Type()) > 0:
		d.size(r, w, path, v)
	case v.Kind() == reflect.Int:
		d.whole(r, w, path, v)
	case v.Kind() == reflect.Bool:
		d.truth(w, path, v)
	case v.Kind() == reflect.String:
		if d.textFits(r, w, path) {
			v.SetString(w.text)
		}
	default:
		panic(fmt.Sprintf("job: a text cannot be read into %v at %q", v.Type(), path))
	}
}

// quantity reads a number with its unit and holds it against the limits.
func (d *Decoder) quantity(r *rule, w written, path string) (float64, bool) {
	si, err := units.ParseBare(r.kind, w.text, d.system, r.unit[d.system])
	if err != nil {
		d.unreadable(r, w, path, err)
		return 0, false
	}
	summary, detail, ok := r.breach(si, d.system)
	if !ok {
		meant := units.Meant(r.kind, w.text, d.system, r.holds)
		d.Fail(w.node, path, d.shown(r, w.text, si)+" "+summary, detail, d.fix(r, meant))
	}
	return si, ok
}

// unreadable reports a text that is no quantity of the kind. Its fix keeps the
// limits of the key as well.
func (d *Decoder) unreadable(r *rule, w written, path string, err error) {
	var wrong *units.Error
	if !errors.As(err, &wrong) {
		panic("job: units gave an error of another type: " + err.Error())
	}
	meant := units.Meant(r.kind, w.text, d.system, r.holds)
	candidates := []string{wrong.Fix}
	if r.sample != "" && wrong.Fix == r.kind.Example(d.system) {
		candidates = nil // the key's own example says more
	}
	d.Fail(w.node, path, wrong.Why, "", d.fix(r, meant, candidates...))
}

// fix offers a text that really works: the meant one where there is one.
func (d *Decoder) fix(r *rule, meant string, candidates ...string) string {
	if meant != "" {
		return "write " + meant + " if that is meant"
	}
	return "write for example " + r.working(d.system, candidates...)
}

// shown is a value as written, with what it is in the job's units where that
// reads differently.
func (d *Decoder) shown(r *rule, text string, si float64) string {
	canonical := r.kind.Text(si, d.system)
	switch {
	case units.IsBare(text) && r.kind != units.KindNumber:
		return fmt.Sprintf("%s is read as %s, which", text, canonical)
	case si == 0 || alike(text, canonical):
		return text
	}
	return fmt.Sprintf("%s (%s)", text, canonical)
}

// alike tells whether two texts of one value show the same unit, or both a
// metric length or both an imperial one, so that the second adds nothing.
func alike(a, b string) bool {
	unitOf := func(text string) string { return strings.TrimLeft(text, "+-0123456789./ ") }
	x, y := unitOf(a), unitOf(b)
	for _, family := range []string{"mm cm m km", `in " ft '`} {
		words := strings.Fields(family)
		if slices.Contains(words, x) && slices.Contains(words, y) {
			return true
		}
	}
	return x == y
}

// size reads lengths with an x between; the limits hold for each of them.
func (d *Decoder) size(r *rule, w written, path string, v reflect.Value) {
	sides, err := d.sides(r, w.text, v.Type())
	if err != nil {
		d.Fail(w.node, path, err.(*units.Error).Why, "", "write for example "+d.sizeExample(r, v.Type()))
		return
	}
	for i, side := range sides {
		if summary, detail, ok := r.breach(float64(side), d.system); !ok {
			text := r.kind.Text(float64(side), d.system)
			d.Fail(w.node, path, fmt.Sprintf("number %d, %s, %s", i+1, text, summary), detail, "write for example "+d.sizeExample(r, v.Type()))
			return
		}
		v.Field(i).SetFloat(float64(side))
	}
}

func (d *Decoder) sides(r *rule, text string, t reflect.Type) ([]units.Length, error) {
	if t == size2Type {
		z, err := units.ParseSize2(text, d.system, r.unit[d.system])
		return []units.Length{z.X, z.Y}, err
	}
	z, err := units.ParseSize3(text, d.system, r.unit[d.system])
	return []units.Length{z.X, z.Y, z.Z}, err
}

// sizeExample returns a size that keeps the limits.
func (d *Decoder) sizeExample(r *rule, t reflect.Type) string {
	for _, text := range []string{r.sample, r.fallback, units.SizeExample(sizeOf(t), d.system)} {
		if sides, err := d.sides(r, text, t); err == nil && !slices.ContainsFunc(sides, func(l units.Length) bool { return !r.holds(float64(l)) }) {
			return text
		}
	}
	one := r.working(d.system)
	return one + strings.Repeat(" x "+one, sizeOf(t)-1)
}

var (
	wholeNumber  = regexp.MustCompile(`^[+-]?[0-9]{1,9}$`)
	signedDigits = regexp.MustCompile(`^[+-]?[0-9]+$`)
)

// whole reads a whole number of at most nine digits.
func (d *Decoder) whole(r *rule, w written, path string, v reflect.Value) {
	if signedDigits.MatchString(w.text) && !wholeNumber.MatchString(w.text) {
		d.Fail(w.node, path, quote(w.text)+" has more digits than any count here", "", "write for example "+r.wholeExample())
		return
	}
	if !wholeNumber.MatchString(w.text) {
		d.Fail(w.node, path, quote(w.text)+" is not a whole number", "", "write for example "+r.wholeExample())
		return
	}
	n, _ := strconv.Atoi(w.text)
	if summary, detail, ok := r.breach(float64(n), d.system); !ok {
		d.Fail(w.node, path, w.text+" "+summary, detail, "write for example "+r.wholeExample())
		return
	}
	v.SetInt(int64(n))
}

// wholeExample returns a whole number that keeps the limits.
func (r *rule) wholeExample() string {
	candidates := []float64{2}
	for _, limit := range []*float64{r.least, r.most, r.above} {
		if limit != nil {
			candidates = append(candidates, *limit, *limit+1)
		}
	}
	for _, text := range []string{r.sample, r.fallback} {
		if r.holdsText(text) {
			return text
		}
	}
	for _, n := range candidates {
		if r.holds(n) {
			return strconv.Itoa(int(n))
		}
	}
	return "2"
}

func (r *rule) holdsText(text string) bool {
	n, err := strconv.Atoi(text)
	return err == nil && r.holds(float64(n))
}

// truth reads true or false, and nothing else that YAML or people may mean.
func (d *Decoder) truth(w written, path string, v reflect.Value) {
	switch w.text {
	case "true", "false":
		v.SetBool(w.text == "true")
		return
	}
	fix := "write true or false"
	switch strings.ToLower(w.text) {
	case "yes", "on", "y", "1", "true":
		fix = "write true"
	case "no", "off", "n", "0", "false":
		fix = "write false"
	}
	d.Fail(w.node, path, quote(w.text)+" is not true or false", "", fix)
}

// textFits holds a text against the enum of its tag and against what can be
// printed on a sheet.
func (d *Decoder) textFits(r *rule, w written, path string) bool {
	if r.enum != nil {
		return d.chosen(r, w, path)
	}
	switch why := unprintable(w.text, r.longest); {
	case why != "":
		d.Fail(w.node, path, "the text "+why, "", "write it in plain characters, at most "+strconv.Itoa(r.longest))
		return false
	case strings.TrimSpace(w.text) == "" && !r.optional && !r.defaults:
		d.Fail(w.node, path, "the text is empty", r.doc, "write a text")
		return false
	}
	return true
}

// chosen holds a word against the words allowed.
func (d *Decoder) chosen(r *rule, w written, path string) bool {
	if slices.Contains(r.enum, w.text) {
		return true
	}
	fix := "write one of them"
	if near := nearest(w.text, r.enum); near != "" {
		fix = "write " + near
	}
	d.Fail(w.node, path, quote(w.text)+" is not one of "+strings.Join(words(r.enum), ", "), "", fix)
	return false
}

// words shows an empty choice as a pair of quotes.
func words(enum []string) []string {
	shown := slices.Clone(enum)
	for i, word := range shown {
		if word == "" {
			shown[i] = `""`
		}
	}
	return shown
}
