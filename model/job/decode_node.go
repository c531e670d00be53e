package job

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// pairsOf returns the key-value pairs of a mapping in the order written; none
// for any other node.
func pairsOf(n ast.Node) []*ast.MappingValueNode {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.Values
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}
	}
	return nil
}

// itemsOf returns the items of a list; none for any other node.
func itemsOf(n ast.Node) []ast.Node {
	if list, ok := n.(*ast.SequenceNode); ok {
		return list.Values
	}
	return nil
}

func isMapping(n ast.Node) bool {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return true
	}
	return false
}

func isList(n ast.Node) bool {
	_, ok := n.(*ast.SequenceNode)
	return ok
}

func isNothing(n ast.Node) bool {
	_, ok := n.(*ast.NullNode)
	return ok
}

// keyText is the key as the writer sees it, without quotes.
func keyText(pair *ast.MappingValueNode) string {
	if text, ok := scalarText(pair.Key); ok {
		return text
	}
	return pair.Key.GetToken().Value
}

// scalarText returns a scalar as it was written, whatever YAML takes it for: 014
// stays 014, and 1:20, no and 1e3 stay text. Quotes are taken off. The lines of
// a block text are joined by blanks. ok is false for a list, a mapping or
// nothing.
func scalarText(n ast.Node) (text string, ok bool) {
	switch n := n.(type) {
	case *ast.StringNode:
		return n.Value, true
	case *ast.LiteralNode:
		return strings.Join(strings.Fields(n.Value.Value), " "), true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, true
	}
	return "", false
}

// described says what a node is, for messages.
func described(n ast.Node) string {
	switch {
	case isMapping(n):
		return "a group of keys"
	case isList(n):
		return "a list"
	case isNothing(n):
		return "nothing"
	}
	text, _ := scalarText(n)
	return quote(text)
}

// quote puts a text from the file between quotes and keeps it short.
func quote(text string) string { return `"` + cut(text, 40) + `"` }
