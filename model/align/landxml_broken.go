package align

import (
	"bytes"
	"encoding/xml"
	"errors"
	"strings"
)

// unreadEncoding is the name of an encoding that is not read.
type unreadEncoding string

func (e unreadEncoding) Error() string { return "the encoding " + short(string(e)) + " is not read" }

// plainError is a decoder's error without its own line number.
func plainError(err error) string {
	var encoding unreadEncoding
	var broken *xml.SyntaxError
	switch {
	case errors.As(err, &encoding):
		return encoding.Error()
	case errors.As(err, &broken) && broken.Msg == cutOff:
		return "it ends in the middle"
	case errors.As(err, &broken):
		return short(broken.Msg)
	}
	return short(err.Error())
}

// cutOff is what the decoder says at the end of a text that is not complete.
const cutOff = "unexpected EOF"

// fixOf is what mends a file that is no well-formed XML.
func fixOf(text []byte, err error) string {
	var encoding unreadEncoding
	said := err.Error()
	switch {
	case errors.As(err, &encoding), wide(text), strings.Contains(said, "UTF-8"):
		return "save the file as UTF-8"
	case strings.Contains(said, cutOff):
		return "the file was cut off: copy or export it again"
	case strings.Contains(said, "entity"):
		return "write the character itself: no entities but &amp; &lt; &gt; &apos; and &quot; are read"
	}
	return "export the file again"
}

// wide tells by its byte-order mark that a file is UTF-16.
func wide(text []byte) bool {
	return bytes.HasPrefix(text, []byte{0xff, 0xfe}) || bytes.HasPrefix(text, []byte{0xfe, 0xff})
}
