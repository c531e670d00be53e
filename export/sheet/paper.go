package sheet

// Paper is a sheet size, always landscape. ISO sizes after ISO 5457, US sizes
// after ANSI/ASME Y14.1.
type Paper uint8

const (
	A3 Paper = iota // the default: what a site office can print
	A0
	A1
	A2
	A4
	USB
	USC
	USD
	paperCount
)

type paperData struct {
	name          string
	width, height float64 // trimmed, mm
}

const inch = 25.4

var papers = [paperCount]paperData{
	A0:  {"A0", 1189, 841},
	A1:  {"A1", 841, 594},
	A2:  {"A2", 594, 420},
	A3:  {"A3", 420, 297},
	A4:  {"A4", 297, 210},
	USB: {"B", 17 * inch, 11 * inch},
	USC: {"C", 22 * inch, 17 * inch},
	USD: {"D", 34 * inch, 22 * inch},
}

func (p Paper) data() paperData {
	if p >= paperCount {
		p = A3
	}
	return papers[p]
}

// Name is what the sheet size is called: A3, B.
func (p Paper) Name() string { return p.data().name }

// Size is the trimmed sheet, width and height in mm.
func (p Paper) Size() (width, height float64) {
	d := p.data()
	return d.width, d.height
}

func (p Paper) lettering() float64 {
	if w, _ := p.Size(); w > 800 {
		return 3.5
	}
	return 2.5
}

// Frame margins of ISO 5457: 20 mm at the filing edge, 10 mm elsewhere. US
// sheets get the same, which is not less than what Y14.1 asks at their short side.
const (
	marginLeft  = 20.0
	marginOther = 10.0
)

// DrawingSpace is the inside of the frame, mm of paper.
func (p Paper) DrawingSpace() Box {
	w, h := p.Size()
	return Box{Point{marginLeft, marginOther}, Point{w - marginOther, h - marginOther}}
}
