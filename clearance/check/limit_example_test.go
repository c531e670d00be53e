package check

import (
	"reflect"
	"testing"

	"boxwalk/model/job"
	"boxwalk/model/units"
)

// Whoever writes an impossible limit is shown one that works: it is the default.
func TestTheLimitThatAMessageProposesIsTheDefault(t *testing.T) {
	defaults := map[string]float64{}
	for _, l := range defaultLimits() {
		defaults[l.Key] = l.Value
	}
	proposed := func(group reflect.Type, prefix string) {
		for i := range group.NumField() {
			f := group.Field(i)
			key, example := f.Tag.Get("yaml"), f.Tag.Get("example")
			if example == "" && f.Type.Elem().Kind() == reflect.Struct {
				continue
			}
			if prefix != "" {
				key = prefix
			}
			if v, err := units.Parse(units.KindLength, example, units.Metric); err != nil || v != defaults[key] {
				t.Errorf("%s: %q is proposed, the default is %g m", key, example, defaults[key])
			}
		}
	}
	proposed(reflect.TypeFor[job.Limits](), "")
	proposed(reflect.TypeFor[job.ZoneLimits](), "strip.clear")
}
