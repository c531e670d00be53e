package dxf

import (
	"strings"

	"github.com/yofu/dxf/entity"
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"
)

// record is a BLOCK_RECORD that can point to a layout.
type record struct {
	name   string
	handle int
	owner  handle.Handler
	layout handle.Handler
}

func (r *record) IsSymbolTable() bool       { return true }
func (r *record) Handle() int               { return r.handle }
func (r *record) SetHandle(next *int)       { r.handle = *next; *next++ }
func (r *record) SetOwner(h handle.Handler) { r.owner = h }
func (r *record) Name() string              { return r.name }

// Format writes the record.
func (r *record) Format(f format.Formatter) {
	f.WriteString(0, "BLOCK_RECORD")
	f.WriteHex(5, r.handle)
	f.WriteHex(330, r.owner.Handle())
	f.WriteString(100, "AcDbSymbolTableRecord")
	f.WriteString(100, "AcDbBlockTableRecord")
	f.WriteString(2, r.name)
	layout := 0
	if r.layout != nil {
		layout = r.layout.Handle()
	}
	f.WriteHex(340, layout)
}

// block is a BLOCK with what lies in it.
type block struct {
	name        string
	record      *record
	entities    []entity.Entity
	handle, end int
	paper       bool
}

// blocks is the BLOCKS section, in place of the library's empty one.
type blocks struct{ list []*block }

// SetHandle numbers all blocks and what lies in them.
func (b *blocks) SetHandle(next *int) {
	take := func() int { *next++; return *next - 1 }
	for _, x := range b.list {
		x.handle = take()
		for _, e := range x.entities {
			e.SetHandle(next)
		}
		x.end = take()
	}
}

// Format writes the section.
func (b *blocks) Format(f format.Formatter) {
	f.WriteString(0, "SECTION")
	f.WriteString(2, "BLOCKS")
	for _, x := range b.list {
		x.format(f)
	}
	f.WriteString(0, "ENDSEC")
}

func (b *block) format(f format.Formatter) {
	b.bracket(f, "BLOCK", b.handle)
	f.WriteString(100, "AcDbBlockBegin")
	f.WriteString(2, b.name)
	anonymous := 0
	if strings.HasPrefix(b.name, "*D") {
		anonymous = 1
	}
	f.WriteInt(70, anonymous)
	for _, code := range []int{10, 20, 30} {
		f.WriteFloat(code, 0)
	}
	f.WriteString(3, b.name)
	f.WriteString(1, "")
	for _, e := range b.entities {
		e.Format(f)
	}
	b.bracket(f, "ENDBLK", b.end)
	f.WriteString(100, "AcDbBlockEnd")
}

func (b *block) bracket(f format.Formatter, kind string, handle int) {
	f.WriteString(0, kind)
	f.WriteHex(5, handle)
	f.WriteHex(330, b.record.handle)
	f.WriteString(100, "AcDbEntity")
	if b.paper {
		f.WriteInt(67, 1)
	}
	f.WriteString(8, "0")
}
