package step

import (
	"bytes"
	"fmt"

	"boxwalk/export/assembly"
	"boxwalk/model/geom"
)

// file collects the instances of a data section; points and directions stand once.
type file struct {
	data       bytes.Buffer
	last       id
	points     map[geom.Vec]id
	directions map[geom.Vec]id
	styled     []id
	colours    map[assembly.Colour]id

	context           id // of all representations
	products, designs id // contexts of products
}

// add writes an instance and returns its number.
func (f *file) add(format string, args ...any) id {
	f.last++
	fmt.Fprintf(&f.data, "%v=", f.last)
	fmt.Fprintf(&f.data, format, args...)
	f.data.WriteString(";\n")
	return f.last
}

// accuracy is how far apart two points may lie and be the same, mm, as the file states.
const accuracy = "1.E-5"

func newFile() *file {
	f := &file{points: map[geom.Vec]id{}, directions: map[geom.Vec]id{}, colours: map[assembly.Colour]id{}}
	app := f.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
	f.add("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,%v)", app)
	f.products = f.add("PRODUCT_CONTEXT('',%v,'mechanical')", app)
	f.designs = f.add("PRODUCT_DEFINITION_CONTEXT('part definition',%v,'design')", app)
	mm := f.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
	rad := f.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
	sr := f.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
	near := f.add("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(%s),%v,'distance_accuracy_value','confusion accuracy')", accuracy, mm)
	f.context = f.add("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((%v))GLOBAL_UNIT_ASSIGNED_CONTEXT((%v,%v,%v))REPRESENTATION_CONTEXT('','3D'))", near, mm, rad, sr)
	return f
}

// point in metres.
func (f *file) point(p geom.Vec) id {
	if n, ok := f.points[p]; ok {
		return n
	}
	n := f.add("CARTESIAN_POINT('',%s)", numbers(p.Mul(1000)))
	f.points[p] = n
	return n
}

// direction of a unit vector, to all its digits.
func (f *file) direction(d geom.Vec) id {
	if n, ok := f.directions[d]; ok {
		return n
	}
	n := f.add("DIRECTION('',(%s,%s,%s))", exactly(d[0]), exactly(d[1]), exactly(d[2]))
	f.directions[d] = n
	return n
}

// axes place something: an origin in metres, z and x.
func (f *file) axes(origin, z, x geom.Vec) id {
	return f.add("AXIS2_PLACEMENT_3D('',%v,%v,%v)", f.point(origin), f.direction(z), f.direction(x))
}

// placed are the axes of a pose.
func (f *file) placed(p geom.Pose) id {
	return f.axes(p.T, p.Turn(geom.Vec{0, 0, 1}), p.Turn(geom.Vec{1, 0, 0}))
}
