package svg

import (
	"strings"

	"boxwalk/export/sheet"
)

var markup = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// Escape makes any string fit for XML text and attributes: it is cleaned as
// lettering is, and markup is escaped.
func Escape(s string) string { return markup.Replace(sheet.Clean(s)) }
