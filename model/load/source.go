package load

// Flag tells how far a value's source was read.
type Flag uint8

// The flags. The zero value is no statement at all and prints as such.
const (
	Unmarked   Flag = iota
	Read            // read in the source itself
	SecondHand      // read in a transcription, not in the source
	Memory          // recalled from memory; not verified
	Derived         // algebra or statics; needs no source
	Judgement       // a choice of this project
)

var flagWords = [...]string{"source not stated", "read in the source", "second-hand", "from memory", "derived", "judgement"}

// String returns the words that a report prints beside a value.
func (f Flag) String() string {
	if int(f) >= len(flagWords) {
		return flagWords[Unmarked]
	}
	return flagWords[f]
}

// Source names where a formula or value comes from, and how far it was read.
type Source struct {
	Text string
	Flag Flag
}

// String returns the source with its flag in brackets.
func (s Source) String() string {
	if s.Text == "" {
		return s.Flag.String()
	}
	return s.Text + " (" + s.Flag.String() + ")"
}

// LineLoad is a force per length in kN/m.
type LineLoad float64

// Moment is a moment or torque in kN m.
type Moment float64
