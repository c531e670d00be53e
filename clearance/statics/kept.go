package statics

import (
	"fmt"
	"sync"

	"boxwalk/model/frame"
	"boxwalk/model/load"
)

// Kept holds the beams that were solved, so that bays with the same beam share its
// answer. The zero value is ready; it may be used from several goroutines, and what it
// answers does not depend on who asks first.
type Kept struct {
	mu   sync.Mutex
	list map[string]*keptBeam
}

type keptBeam struct {
	once   sync.Once
	solved []frame.Response
	wall   frame.WallAnswer
	err    error
}

// Wall is [frame.Wall.Under], worked out once for each wall and pressure.
func (k *Kept) Wall(w frame.Wall, d load.Diagram) (frame.WallAnswer, error) {
	if k == nil {
		return w.Under(d)
	}
	one := k.at(fmt.Sprintf("wall %v %v", w, d))
	one.once.Do(func() { one.wall, one.err = w.Under(d) })
	return one.wall, one.err
}

// Solve is [frame.Beam.Solve], worked out once for each beam and its loadings; nil keeps
// nothing.
func (k *Kept) Solve(b frame.Beam, loads ...frame.Loading) ([]frame.Response, error) {
	if k == nil {
		return b.Solve(loads...)
	}
	// %v tells floats apart to their last bit
	one := k.at(fmt.Sprintf("%v %v", b, loads))
	one.once.Do(func() { one.solved, one.err = b.Solve(loads...) })
	return one.solved, one.err
}

func (k *Kept) at(key string) *keptBeam {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.list == nil {
		k.list = map[string]*keptBeam{}
	}
	if k.list[key] == nil {
		k.list[key] = &keptBeam{}
	}
	return k.list[key]
}
