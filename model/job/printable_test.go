package job

import (
	"strings"
	"testing"
)

func TestTextsThatASheetCannotShowAreRefused(t *testing.T) {
	for text, want := range map[string]string{
		"a\x00b":                          "invisible control character (U+0000)",
		"a\nb":                            "invisible control character (U+000A)",
		"a\u0085b":                        "invisible control character (U+0085)",
		"a\u202eb":                        "invisible control character (U+202E)",
		"a\u2067b":                        "invisible control character (U+2067)",
		"a\u2028b":                        "invisible control character (U+2028)",
		"a\ufffdb":                        "cannot be printed (U+FFFD)",
		"a\ue000b":                        "cannot be printed (U+E000)",
		"a\U0010fffdb":                    "cannot be printed (U+10FFFD)",
		"a\ufdd0b":                        "cannot be printed (U+FDD0)",
		"a\uffffb":                        "cannot be printed (U+FFFF)",
		"a\u0378b":                        "cannot be printed (U+0378)",
		"a\u200db":                        "cannot be printed (U+200D)",
		"a\u00adb":                        "cannot be printed (U+00AD)",
		"a\ufeffb":                        "cannot be printed (U+FEFF)",
		"a\ufe0fb":                        "cannot be printed (U+FE0F)",
		"a\u3164b":                        "cannot be printed (U+3164)",
		"a\U000e0041b":                    "cannot be printed (U+E0041)",
		strings.Repeat("x", 61):           "has 61 characters, at most 60",
		strings.Repeat("x", 10000):        "has 10000 characters, at most 60",
		"e" + strings.Repeat("\u0301", 5): "more than 4 marks on one letter (U+0301)",
		strings.Repeat("漢", 60):           "",
		"e\u0301u\u0308\u0304":            "",
		"שלום مرحبا":                      "",
		"😀 ⚠ →":                           "",
		"हिन्दी":                          "",
		"100 % \\P %%d {x} <&>\"'":        "",
		"a\u00a0b\u3000c":                 "",
	} {
		if got := unprintable(text, 60); !strings.Contains(got, want) || (got == "") != (want == "") {
			t.Errorf("%.20q: %q, want %q", text, got, want)
		}
	}
}
