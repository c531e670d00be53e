package formula

import (
	"fmt"
	"math"
	"strconv"
)

// What a formula may be at most: more than any that a person does by hand, and little
// enough that nobody's text takes the program's stack or time.
const (
	mostDepth = 50
	mostText  = 1000
)

// Error is what is wrong with a formula, and where: bytes from its start.
type Error struct {
	At   int
	What string
}

func (e *Error) Error() string { return fmt.Sprintf("at %d: %s", e.At+1, e.What) }

// Parse reads a formula. An error is an *Error.
func Parse(text string) (Node, error) {
	if len(text) > mostText {
		return nil, &Error{mostText, fmt.Sprintf("a formula has at most %d characters", mostText)}
	}
	p := &parser{text: text}
	n, err := p.sum(0)
	if err != nil {
		return nil, err
	}
	if p.space(); p.at < len(text) {
		return nil, p.wrong("expected an operator")
	}
	return n, nil
}

type parser struct {
	text string
	at   int
}

func (p *parser) wrong(what string) error {
	found := "the end"
	if p.at < len(p.text) {
		found = strconv.QuoteToASCII(p.text[p.at : p.at+1])
	}
	return &Error{p.at, what + ", found " + found}
}

func (p *parser) space() {
	for p.at < len(p.text) && p.text[p.at] == ' ' {
		p.at++
	}
}

// take goes past one of the characters asked for, if that is what comes next.
func (p *parser) take(any string) (byte, bool) {
	p.space()
	for i := range len(any) {
		if p.at < len(p.text) && p.text[p.at] == any[i] {
			p.at++
			return any[i], true
		}
	}
	return 0, false
}

// sum is products with + or - between them.
func (p *parser) sum(depth int) (Node, error) { return p.chain(depth, "+-", (*parser).product) }

// product is signed powers with * or / between them.
func (p *parser) product(depth int) (Node, error) { return p.chain(depth, "*/", (*parser).signed) }

// chain is parts that go from the left.
func (p *parser) chain(depth int, ops string, part func(*parser, int) (Node, error)) (Node, error) {
	left, err := part(p, depth)
	for n := depth; err == nil; n++ {
		op, more := p.take(ops)
		if !more {
			return left, nil
		}
		if n > mostDepth {
			return nil, &Error{p.at - 1, "too many parts in one another"}
		}
		var right Node
		right, err = part(p, depth)
		left = Binary{op, left, right}
	}
	return nil, err
}

// signed is a power with as many minuses before it as there are.
func (p *parser) signed(depth int) (Node, error) {
	if depth > mostDepth {
		return nil, &Error{p.at, "too many parts in one another"}
	}
	if _, minus := p.take("-"); minus {
		n, err := p.signed(depth + 1)
		return Minus{n}, err
	}
	return p.power(depth)
}

func (p *parser) power(depth int) (Node, error) {
	base, err := p.operand(depth)
	if err != nil {
		return nil, err
	}
	if _, raised := p.take("^"); !raised {
		return base, nil
	}
	exponent, err := p.signed(depth + 1)
	return Binary{'^', base, exponent}, err
}

// operand is a number, a symbol, a function or what stands in parentheses.
func (p *parser) operand(depth int) (Node, error) {
	if _, open := p.take("("); open {
		n, err := p.sum(depth + 1)
		if err == nil {
			err = p.closed()
		}
		return n, err
	}
	switch c := p.next(); {
	case digit(c) || c == '.':
		return p.number()
	case letter(c):
		return p.named(depth)
	}
	return nil, p.wrong("expected a number, a symbol or (")
}

func (p *parser) closed() error {
	if _, closed := p.take(")"); !closed {
		return p.wrong("expected )")
	}
	return nil
}

func (p *parser) next() byte {
	if p.at < len(p.text) {
		return p.text[p.at]
	}
	return 0
}

// number is digits with a point and a power of ten, if any: 0.85, 1e-6.
func (p *parser) number() (Node, error) {
	from := p.at
	p.skip(func(c byte) bool { return digit(c) || c == '.' })
	if c := p.next(); c == 'e' || c == 'E' {
		p.at++
		if c := p.next(); c == '-' || c == '+' {
			p.at++
		}
		p.skip(digit)
	}
	text := p.text[from:p.at]
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return nil, &Error{from, fmt.Sprintf("%q is no number", text)}
	}
	return Number{text, v}, nil
}

// named is a symbol, or a function where ( follows.
func (p *parser) named(depth int) (Node, error) {
	from := p.at
	p.skip(func(c byte) bool { return letter(c) || digit(c) || c == '_' })
	name := p.text[from:p.at]
	f, is := functions[name]
	if _, called := p.take("("); !called {
		if is {
			return nil, &Error{from, name + " is a function: what of?"}
		}
		return Symbol{name, from}, nil
	}
	if !is {
		return nil, &Error{from, fmt.Sprintf("there is no function %q", name)}
	}
	return p.arguments(name, from, f.many, depth)
}

func (p *parser) arguments(name string, from int, many bool, depth int) (Node, error) {
	out := Call{Name: name}
	for {
		a, err := p.sum(depth + 1)
		if err != nil {
			return nil, err
		}
		out.Args = append(out.Args, a)
		if _, more := p.take(","); !more {
			break
		}
	}
	switch n := len(out.Args); {
	case many && n < 2:
		return nil, &Error{from, name + " is of two values or more"}
	case !many && n > 1:
		return nil, &Error{from, name + " is of one value"}
	}
	return out, p.closed()
}

func (p *parser) skip(is func(byte) bool) {
	for p.at < len(p.text) && is(p.text[p.at]) {
		p.at++
	}
}

func digit(c byte) bool  { return c >= '0' && c <= '9' }
func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }
