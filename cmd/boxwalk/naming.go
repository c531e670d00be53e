package main

import (
	"path"
	"path/filepath"
	"regexp"
)

// ownName is how the files are named that commands write below an output
// folder, with slash. Nothing else is ever taken away, whatever a list in the
// folder says: anybody may have written that.
var ownName = regexp.MustCompile(`^(result\.json|result\.schema\.json|(clearance|along|settings|setout|cycle|parts|steps)\.csv|steps\.txt|report\.(html|pdf)` +
	`|drawings/[0-9]{2,4}-(` + ownSheet + `)\.(dxf|svg)|drawings/set\.pdf|views/(` + ownView + `)(-bent)?\.svg|` + ownSolids + `|` + regexp.QuoteMeta(manifest) + `)$`)

// The names that views.Sheets and views.Pictures give, without what stands
// around them. Nothing in them comes from a job or gear: a name that may hold
// anything may be anybody's.
const (
	ownSheet = `index|section-(raised|collapsed)(-cell-[0-9]+)?|sequence(-cell-[0-9]+)?-steps-[0-9]+-[0-9]+|longitudinal-section(-cell-[0-9]+-pour-[0-9]+)?|plan|(wall|roof|bent)-layout(-cell-[0-9]+-pour-[0-9]+)?` +
		`|(hold-points|settings|set-out|parts)(-[0-9]+)?|wheel-track(-section)?(-cell-[0-9]+)?(-[0-9]+)?|along-the-route(-cell-[0-9]+)?`
	ownView   = `raised|collapsed|rolling-(start|governs|end)|step-[1-9][0-9]{0,2}`
	ownSolids = `solids/(step/` + ownPlace + `-(raised|collapsed|governing|step-[1-9][0-9]{0,2})\.step|glb/` + ownPlace + `-moving\.glb)`
	ownPlace  = `cell-[0-9]{1,3}-pour-[0-9]{1,3}`
)

// ownFolder are the folders below an output folder.
var ownFolder = regexp.MustCompile(`^(drawings|views|solids|solids/step|solids/glb)$`)

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
