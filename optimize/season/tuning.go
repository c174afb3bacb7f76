package season

// Every constant that was tuned is here, group by group in the order in which the work is done. What one brought is said
// where it was measured, as the change in points without it: "tuned on" are seeds 1 to 3 of 12 x 26 (RandomString, hours
// for 40 % of the wish), which the constants were also chosen on; "unseen" are seeds that nothing was tuned on (README.md).
// A run differs from the next version's by 0.1 to 0.2 %, so less than that says nothing. Tolerances that only keep
// rounding out are where they are used.

// First prices by tatonnement (tatonnement.go). Its steps against none, unseen: +0.15 % without them at 6 x 26, -0.02 % at
// 12 x 26, -0.15 % at 10 x 39. The others were not measured on their own.
const (
	tatonnementSteps = 3    // steps of the prices
	firstPrice       = 0.03 // part of what a minute can be worth at most: every row's price in the first step
	pricePower       = 0.5  // exponent of load by capacity in a price's first change
	mostRise         = 4    // times that a price rises or falls in one step at most
	worthPart        = 0.3  // part of a column's pulling: with less a dog waits for a better plan
)

// Column generation with all sessions open (solve.go). Without smoothing -0.06, -0.26 and +0.05 %, tuned on; with more or
// less of it, nothing gained. Without a dog's second column -0.12, -0.05, -0.15 and -0.20 % on unseen seeds, and gaps 1.7 to 3
// times as wide. The others were not measured on their own.
const (
	maxRounds    = 24     // pricing rounds over all dogs
	smoothing    = 0.6    // part of the best prices so far in those that are asked
	mostMisses   = 2      // rounds that gain nothing with the smoothing halved each time, before it is left off
	promiseTol   = 1.5e-3 // part of the objective: what a round's columns must promise for another
	roundTol     = 1e-4   // part of the objective: how near the Lagrangian must come to the master for the rounds to end
	rootNodes    = 1      // nodes of a dog's branch and bound while columns are wanted more than a bound
	maxColumns   = 20     // columns a dog carries on
	searchPasses = 1      // passes over a dog's weeks in the search for its second column
)

// Between two rounds of pricing with all sessions open, and in the dive, columns are generated with the sessions in use alone.
const (
	againRounds = 5 // rounds of that
	knownWays   = 2 // ways of a dog, by sessions and weeks of clearing, that are asked
	mixesKept   = 3 // programs of a dog's ways that are kept
)

// The dive by weeks (weekdive.go): tuned on seeds 2, 3 and 12 of 12 x 26.
const (
	surePart   = 0.8  // of a session: from there on it is held at once
	likelyPart = 0.4  // .. with less, sessions are left out rather than held
	holdDogs   = 0.5  // part of the dogs with broken sessions of which some are held in a step
	brokenPart = 1e-4 // of a session: what is nearer to whole is not broken
	mostHolds  = 200  // steps at most
	diveTime   = 0.6  // part of a time limit after which whole dogs are fixed at once
)

// Repairing (repair.go), where there is time left.
const (
	repairForget = 0.8  // part of what a size brought that still counts after another try
	repairLeast  = 0.1  // what every size counts at least
	repairRounds = 2    // pricing rounds of the freed dogs before they are dived for
	repairTol    = 1e-5 // part of the objective that freed dogs must promise to gain
)

// The dive (dive.go). Not measured on their own; settling single sessions instead of whole dogs brought 0.03 % for 0.3 s.
const (
	diveRounds    = 3    // pricing rounds after each step
	finalRounds   = 40   // pricing rounds with all sessions fixed
	diveSmoothing = 0.3  // part of the best prices so far in those that are asked
	clearMix      = 0.95 // part of a dog's mix: from there on it is fixed along with the clearest
)

// Shares of a time limit. Not measured on their own.
const (
	rootPart   = 0.3 // after which no more rounds with few nodes begin
	boundPart  = 0.5 // after which no more rounds with many nodes begin
	polishTime = 0.8 // after which no more steps of polishing are tried
)

// A dog with its sessions fixed (areamix.go, fill.go). Not measured on their own.
const (
	mixRounds    = 25   // rounds of its column generation
	mixColumns   = 600  // columns of its program that the next goes on with at most
	mixCarry     = 150  // of its last columns, those that a program for other sessions begins with at most
	mixSmoothing = 0.5  // part of the best fill prices so far in those that are asked
	mixTol       = 1e-3 // points: how near to the best a mix need be
	balanceCare  = 1e-6 // points that a fill price may leave on the table while sessions are sought
	fillSlip     = 0.25 // minutes by which a fill price may miss the sessions
	fillTouches  = 12   // times that a fill price is asked between two that hold it
	evenSweeps   = 1    // sweeps over the weeks' fill prices
	fillRises    = 40   // times that it is raised before it is given up
)

// A dog's branch and bound (branch.go, bound.go). Branching by what it brought so far: -0.03, -0.35 and -0.08 % without,
// tuned on. The others were not measured on their own.
const (
	carePart    = 0.5   // part of the tolerance that a fill price may leave on the table
	timesKept   = 3     // times that branching at other prices counts for at most
	diveCare    = 1e-3  // points that a fill price may leave on the table in a dive
	diveNear    = 0.15  // of a session: as near to whole it is made whole at once
	leastPart   = 0.02  // part of a session: parts nearer to none or all count as this much
	wholeSlip   = 0.01  // part of a session by which work may pass whole sessions and still count as held by them
	proveRounds = 2     // pricing rounds with many nodes
	usualNodes  = 12    // nodes of a dog where a bound is wanted, in a string of the usual size
	usualSize   = 312   // dog-weeks (12 x 26) up to which a string is of the usual size; larger ones get fewer nodes a dog
	leastNodes  = 10    // nodes that a dog gets in any string
	lookTimes   = 3     // times as many nodes as a round has in a look that proves
	nodesGrow   = 3     // times as many nodes in the next stage of the proof
	nodesMost   = 20000 // nodes beyond which more would only cost memory
	proveTol    = 1e-4  // part of the objective, shared by the dogs: how near a dog's bound need be to a value that it reaches
	nearPart    = 0.05  // .. or this part of the gap
)

// The levies (levy.go): without them -0.08, -0.30 and -0.02 %, and gaps 2.5 to 3.7 times as wide, tuned on. How each of
// these numbers does was not measured on its own; levies by linear program instead of these steps gained nothing.
const (
	levyStep = 4.0  // of a part's logarithm, for a whole session, in the first step
	levyMean = 0.7  // part of what a payer took before in the mean over the last steps
	mostPull = 2.0  // sessions that a payer counts as taking at most
	lastPart = 1e-4 // below which no part of a session's cost falls
)

// How much is done for a node's value.
var (
	rootEffort  = effort{steps: 40, sweeps: 3}
	againEffort = effort{steps: 10, skip: 16, sweeps: 1} // of a root whose parts are known from other prices, and that is not branched on
	diveEffort  = effort{steps: 3, skip: 60, sweeps: 1}
	childEffort = effort{steps: 3, skip: 60, sweeps: 1}
	roughEffort = effort{steps: 6} // of the plan at hand
)

// The bound beside the plan (concurrentbound.go): it narrows the gap by 0.07, 0.23 and 0.07 points of per cent for about 2 s on one
// core, tuned on; plans are the same without it. The stages after that: a gap of 1.80 to 1.49 % (`scarce`, seeds 1 and 2) for less than 1 s
// of CPU, tuned on; two stages more 1.30 and 1.08 %, but the demo and strings of few hours wait for them.
const (
	besideRounds = 2 // pricing rounds
	besideStages = 1 // looks after them, each with more nodes
)

// Polishing (polish.go): without it -0.18, -0.24 and -0.32 %, tuned on. The numbers were not measured on their own.
const (
	polishTries  = 20   // steps tried without gain before the plan counts as polished
	polishBudget = 60   // steps tried in all without a time limit, at least
	polishADog   = 6    // .. and for each dog
	polishMend   = 18   // .. where a plan made before is mended
	polishRounds = 3    // pricing rounds of the dogs that a step touches, then of all
	fewDogs      = 5    // dogs up to which all of them answer a step in each of those
	hopeless     = 0.3  // part of what the plan lacks: where the touched dogs' answers gain less, a step is given up
	polishSpan   = 3    // weeks by which a session is shifted at most
	polishTol    = 2e-5 // part of the objective that a step must gain
	polishMixTol = 3e-4 // points: how near to its best a dog's answer to a step need be
	polishGrow   = 40   // columns a dog by which the program may grow before it is slimmed
)

// Perturbing small seasons (perturb.go). Not measured on their own.
const (
	perturbSize     = 60   // dog-weeks up to which a season is small
	perturbMost     = 12   // perturbations of a small season
	perturbWork     = 840  // .. and dog-weeks in all of them
	perturbAreas    = 400  // areas times weeks from which on it is left at a plan that is near enough
	perturbGap      = 0.01 // .. to the bound
	perturbSessions = 4    // sessions that one changes at most
	perturbDogs     = 2    // .. or dogs that it gives other sessions
	freeDogs        = 3    // .. or that are freed and fixed again
)

// A plan made before (warm.go). Not measured on their own; README.md says how well mended plans do.
const (
	warmRounds  = 14   // pricing rounds that its sessions have in their new season
	renewRounds = 4    // .. and with all sessions open
	renewGap    = 0.03 // relative gap from which on that is worth it
	quickNodes  = 20   // nodes of a dog in a look that only says how much may be missing
)

// The plan at hand (athand.go). Not measured on their own; README.md says how soon there is one.
const (
	crumb      = 0.3  // part of its pulling or of its set-up: with less a week's work is left out
	roughSize  = 1000 // dog-weeks from which a rough plan is made before anything else
	roughParts = 4    // dogs that are asked at once
	roughTurns = 3    // times that each dog is asked
	roughPrice = 0.2  // part of what a minute is worth in the mean if all is reached: its price where half a week is taken
	roughSteep = 4    // price of a minute by that where nothing is left, and that by the price where nothing is taken
	roughRate  = 0.3  // part of the sessions that a dog can have in which its dead hair comes off
	roughLeast = 0.35 // part of a session: a week that asks for less has none
)

// Gathering crumbs (gather.go). Not measured on their own.
const (
	adjustPasses = 3    // passes over the dogs in which other shares are tried
	adjustTol    = 1e-5 // points that another share must gain
	mergeSpan    = 6    // weeks by which a touch may be moved
)

// adjustTo are the shares that are tried: none, the least that is worth making, and what people say as one in N.
var adjustTo = []float64{0, 1e-3, 1. / 20, 1. / 16, 1. / 12, 1. / 10, 1. / 8, 1. / 6, 1. / 5, 1. / 4, 1. / 3, 1. / 2, 1}

// Making a plan workable (workable.go): tuned on the demo, two strings that are short of hours, and seeds 102 and 103 of 12 x 26.
const (
	smallPartShut  = 0.7  // part of the small touches that are given up in a step
	thinPartClosed = 0.5  // .. and of the thin sessions
	fewAtOnce      = 4    // small touches, or thin sessions, that are given up at once
	fewLeft        = 0.25 // part of them from which on the plan is gathered after each step
	settledRounds  = 6    // times that the best plan's touches are kept and its shares worked out again
	searchPart     = 0.85 // of a time limit: what is left is for this
)
