// Package job reads the two files that a person writes, the job and the gear,
// into values that are checked one by one and remember where they stand.
//
// # Reading
//
// [Decode] reads one YAML text into a Go struct by the tags of its fields. It
// reports all problems at once, each with line, column, arithmetic and a value
// that works, and returns a value only when there is none. A first look with
// [PeekSystem] tells the units that the file asks for. [Schema] makes the JSON
// Schema of the same struct for editors.
//
// Fields may be quantities of package units, texts, whole numbers, true or
// false, structs, pointers to them (nil when the key is left out), lists, fixed
// arrays, and maps from names. A type that may be written in several forms
// implements [NodeDecoder] and [SchemaNode]; a struct with rules between its
// keys implements [Checker].
//
// # Tags
//
//	yaml:"span"        the key; a field without one is not read; ",inline" adds
//	                   the keys of a struct to the group around it
//	doc:"…"            one sentence for messages and editors; required
//	default:"25 mm"    read like the text of the file when the key is left out
//	source:"judgement" where a number that is a default comes from; required
//	safer:"more"       on which side of its default a number makes no check easier:
//	                   more or less; what lies on the other is told with the verdict
//	optional:"true"    the key may be left out; a struct then has the defaults
//	                   inside it, anything else is zero
//	min:"0 mm"         least value      } in SI or with a unit, whatever the
//	max:"5 m"          greatest value   } units of the job; for each length of
//	above:"0 mm"       value to exceed  } a size, each item of a list
//	unit:"mm"          unit of a number without one; an imperial job takes its
//	                   counterpart (in); "mm|ft" names both
//	enum:"a|b|c"       the words allowed; "@kinds" are the kinds of collapse
//	example:"3 m"      a likely value, for messages and editors; "3 m; 5 m" are
//	                   items of a list that needs several
//	minitems:"1" maxitems:"4"   number of items of a list
//	maxlength:"60"     characters of a text; without it 400
//
// A field that is no pointer and has neither default nor optional is required.
// A length whose own limits reach beyond 100 km is read as a coordinate, with
// the wider range of units.Coordinate.
//
// # What is refused
//
// Unknown and repeated keys; keys without a value; a unit of another quantity; a
// comma between two digits; NaN, infinities and absurd sizes; texts with
// characters that a drawing cannot show (Printable). Of YAML, anchors, aliases, merge
// keys, tags, directives, question-mark keys and further documents, so that no
// small text can unfold into a large one. Of a file, what is not UTF-8, more
// than 1 MiB, 10 000 lines, 20 000 characters in a line, 20 000 words and signs
// or 32 levels, and tabs outside comments. Scalars are taken as written: 014,
// 1:20, no and 1e3 are what the key makes of them, never what YAML would.
//
// # Paths
//
// A value is named by its keys, list items counted from zero, as in
// culvert.pours[2]; [Decoded] tells its place by that path. Messages count items
// from one: culvert.pours #3.
package job
