package main

import (
	"path"
	"path/filepath"
	"regexp"
)

// ownName is how the files are named that commands write below an output
// folder, with slash. Nothing else is ever taken away, whatever a list in the
// folder says: anybody may have written that.
var ownName = regexp.MustCompile(`^(result\.json|result\.schema\.json|(clearance|along|settings|parts)\.csv|steps\.txt` +
	`|drawings/[0-9]{2,4}-[a-z0-9-]+\.(dxf|svg)|views/[a-z0-9-]+\.svg|` + regexp.QuoteMeta(manifest) + `)$`)

// ownFolder are the folders below an output folder.
var ownFolder = regexp.MustCompile(`^(drawings|views)$`)

// runName is what tells the runs apart whose files lie in a folder.
var runName = regexp.MustCompile(`^[0-9a-f]{16}$`)

// Marks of what a run has beside the place of a file while it works.
const (
	incoming = "new"  // what will stand there
	outgoing = "old"  // what stood there
	halfway  = "copy" // what stood there, not yet whole
)

// beside is the name of a run's own file beside the place of another; name is
// with slash, the answer as the system has it.
func beside(run, mark, name string) string {
	return filepath.FromSlash(path.Join(path.Dir(name), ".boxwalk-"+run+"-"+mark+"-"+path.Base(name)))
}
