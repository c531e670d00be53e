package check

// What entries are about, where another place asks for it.
const (
	midOrdinate    = "mid-ordinate"
	lapBefore      = "lap over the pour before"
	formAhead      = "form over the joint ahead"
	lapBreak       = "lap over a grade break"
	scrubbing      = "scrub"
	pullRound      = "pull round the bend"
	liftLoad       = "load on a lifting jack"
	liftStroke     = "stroke of a lifting jack"
	tiltAlong      = "tilt along"
	tiltAcross     = "tilt across"
	lowFlowChannel = "low-flow channel"
	openJoints     = "open joints"
	FreePairs      = "bodies and links" // kinds of pairs among the carrier's parts
	SeamPairs      = "seams"
)
