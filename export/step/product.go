package step

import "boxwalk/model/geom"

// product is a part or an assembly: its definition, its shape and the axes that it is
// placed by.
type product struct{ definition, shape, origin id }

// child is a product placed in an assembly.
type child struct {
	product
	name string
	pose geom.Pose // assemblyFromProduct
}

// part is a product of solids.
func (f *file) part(name string, solids ...id) product {
	origin := f.placed(geom.Identity())
	return f.product(name, f.add("ADVANCED_BREP_SHAPE_REPRESENTATION(%s,%s,%v)", text(name), list(append([]id{origin}, solids...)...), f.context), origin)
}

// assembly is a product of others.
func (f *file) assembly(name string, children ...child) product {
	origin := f.placed(geom.Identity())
	at := []id{origin}
	for _, c := range children {
		at = append(at, f.placed(c.pose))
	}
	p := f.product(name, f.add("SHAPE_REPRESENTATION(%s,%s,%v)", text(name), list(at...), f.context), origin)
	for i, c := range children {
		moved := f.add("ITEM_DEFINED_TRANSFORMATION('','',%v,%v)", c.origin, at[i+1])
		related := f.add("(REPRESENTATION_RELATIONSHIP('','',%v,%v)REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(%v)SHAPE_REPRESENTATION_RELATIONSHIP())", c.shape, p.shape, moved)
		use := f.add("NEXT_ASSEMBLY_USAGE_OCCURRENCE('%d',%s,'',%v,%v,$)", i+1, text(c.name), p.definition, c.definition)
		f.add("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(%v,%v)", related, f.add("PRODUCT_DEFINITION_SHAPE('Placement','Placement of an item',%v)", use))
	}
	return p
}

func (f *file) product(name string, shape, origin id) product {
	p := f.add("PRODUCT(%s,%s,'',(%v))", text(name), text(name), f.products)
	f.add("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(%v))", p)
	d := f.add("PRODUCT_DEFINITION('design','',%v,%v)", f.add("PRODUCT_DEFINITION_FORMATION('','',%v)", p), f.designs)
	f.add("SHAPE_DEFINITION_REPRESENTATION(%v,%v)", f.add("PRODUCT_DEFINITION_SHAPE('','',%v)", d), shape)
	return product{d, shape, origin}
}
