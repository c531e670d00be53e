package align

import (
	"bytes"
	"encoding/xml"
	"errors"
	"strings"
)

// errEncoding is that of a file in an encoding that is not read.
var errEncoding = errors.New("unknown encoding")

// plainError is a decoder's error without its own line number.
func plainError(err error) string {
	var broken *xml.SyntaxError
	switch {
	case errors.Is(err, errEncoding) || strings.Contains(err.Error(), errEncoding.Error()):
		// the decoder wraps it in words only
		_, name, _ := strings.Cut(err.Error(), errEncoding.Error()+" ")
		return "the encoding " + short(name) + " is not read"
	case errors.As(err, &broken) && broken.Msg == "unexpected EOF":
		return "it ends in the middle"
	case errors.As(err, &broken):
		return short(broken.Msg)
	}
	return short(err.Error())
}

// cureOf is what mends a file that is no well-formed XML.
func cureOf(text []byte, err error) string {
	said := err.Error()
	switch {
	case strings.Contains(said, errEncoding.Error()), wide(text), strings.Contains(said, "UTF-8"):
		return "save the file as UTF-8"
	case strings.Contains(said, "unexpected EOF"):
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
