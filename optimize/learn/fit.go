package learn

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// kind is a kind of record; records of one kind share how far they scatter.
type kind int

const (
	lengths kind = iota
	showables
	looks
	paces
	kinds
)

// observation is one record against what the parameters say it should be.
type observation struct {
	kind    kind
	seen    float64
	scale   float64                            // standard deviation that such a record usually has, in seen's unit
	predict func(parameters []float64) float64 // in seen's unit
	bound   bool                               // it bounds what it is about from one side, and says nothing beyond
}

// model is a fit to make: normal priors around 0 on the parameters, and the records.
type model struct {
	priorSD []float64
	records []observation
}

// fitted is the most probable parameters and how sure they are.
type fitted struct {
	at         []float64
	covariance *mat.SymDense
	weights    []float64 // by record: 1 = as trusted as any, towards 0 = set aside as absurd
	scatter    [kinds]float64
}

// The records' errors are Student's t with few degrees of freedom, so that one absurd record is set aside and not
// averaged in (Lange, Little, Taylor 1989, J. Am. Stat. Assoc. 84:881-896; recalled, not read). How far records of a kind
// scatter is learned too, from a start as if scatterRecords records had scattered as usual.
const (
	freedom        = 4.0
	scatterRecords = 6.0
	mostSteps      = 200
	stepTol        = 1e-10 // of the parameters
	derivativeStep = 1e-6
	halvings       = 30
)

var errNotSure = errors.New("the records don't settle the parameters")

// fit finds the most probable parameters by iteratively reweighted least squares: weights and scatter from the
// residuals, then a Gauss-Newton step that is halved until it gains.
func (m model) fit() (fitted, error) {
	f := fitted{at: make([]float64, len(m.priorSD)), weights: make([]float64, len(m.records))}
	for i := range f.scatter {
		f.scatter[i] = 1
	}
	for range mostSteps {
		m.reweigh(&f)
		step, err := m.step(f)
		if err != nil {
			return f, err
		}
		loss := m.loss(f.at, f.scatter)
		moved := 0.0
		for n := range halvings {
			part := math.Pow(0.5, float64(n))
			next := make([]float64, len(f.at))
			for i := range next {
				next[i] = f.at[i] + part*step.AtVec(i)
			}
			if m.loss(next, f.scatter) <= loss {
				for i := range next {
					moved = max(moved, math.Abs(next[i]-f.at[i]))
				}
				f.at = next
				break
			}
		}
		if moved < stepTol {
			break
		}
	}
	m.reweigh(&f)
	return f, m.spread(&f)
}

// residuals are the records' distances from what the parameters say, in usual standard deviations.
func (m model) residuals(at []float64) []float64 {
	r := make([]float64, len(m.records))
	for i, o := range m.records {
		r[i] = (o.seen - o.predict(at)) / o.scale
	}
	return r
}

// reweigh gives every record its weight, and every kind its scatter.
func (m model) reweigh(f *fitted) {
	r := m.residuals(f.at)
	var sum, count [kinds]float64
	for i, o := range m.records {
		s := f.scatter[o.kind]
		f.weights[i] = (freedom + 1) / (freedom + r[i]*r[i]/(s*s))
		if o.bound && r[i] == 0 {
			continue // it is not met, so it says nothing of how far its kind scatters
		}
		sum[o.kind] += f.weights[i] * r[i] * r[i]
		count[o.kind]++
	}
	for k := range f.scatter {
		f.scatter[k] = math.Sqrt((scatterRecords + sum[k]) / (scatterRecords + count[k]))
	}
}

// loss is minus the logarithm of the parameters' probability, up to a constant.
func (m model) loss(at []float64, scatter [kinds]float64) (sum float64) {
	for i, sd := range m.priorSD {
		sum += at[i] * at[i] / (2 * sd * sd)
	}
	for i, r := range m.residuals(at) {
		s := scatter[m.records[i].kind]
		sum += (freedom + 1) / 2 * math.Log1p(r*r/(freedom*s*s))
	}
	return sum
}

// slopes are the derivatives of the predictions by the parameters, each in its record's usual standard deviations.
func (m model) slopes(at []float64) *mat.Dense {
	j := mat.NewDense(max(1, len(m.records)), len(at), nil)
	moved := append([]float64(nil), at...)
	for p := range at {
		moved[p] = at[p] + derivativeStep
		up := m.residuals(moved)
		moved[p] = at[p] - derivativeStep
		down := m.residuals(moved)
		moved[p] = at[p]
		for i := range m.records {
			j.Set(i, p, (down[i]-up[i])/(2*derivativeStep))
		}
	}
	return j
}

// curvature is the priors' and the records' second derivatives, each record with its own weight.
func (m model) curvature(slopes *mat.Dense, weight func(i int) float64) *mat.SymDense {
	n := len(m.priorSD)
	h := mat.NewSymDense(n, nil)
	for a := range n {
		for b := a; b < n; b++ {
			var sum float64
			if a == b {
				sum = 1 / (m.priorSD[a] * m.priorSD[a])
			}
			for i := range m.records {
				sum += weight(i) * slopes.At(i, a) * slopes.At(i, b)
			}
			h.SetSym(a, b, sum)
		}
	}
	return h
}

func (m model) step(f fitted) (*mat.VecDense, error) {
	slopes, r := m.slopes(f.at), m.residuals(f.at)
	weight := func(i int) float64 {
		s := f.scatter[m.records[i].kind]
		return f.weights[i] / (s * s)
	}
	pull := mat.NewVecDense(len(f.at), nil)
	for p := range f.at {
		sum := -f.at[p] / (m.priorSD[p] * m.priorSD[p])
		for i := range m.records {
			sum += weight(i) * slopes.At(i, p) * r[i]
		}
		pull.SetVec(p, sum)
	}
	var c mat.Cholesky
	if !c.Factorize(m.curvature(slopes, weight)) {
		return nil, errNotSure
	}
	step := mat.NewVecDense(len(f.at), nil)
	if err := c.SolveVecTo(step, pull); err != nil {
		return nil, errors.Join(errNotSure, err)
	}
	return step, nil
}

// spread finds how sure the parameters are: the inverse of the curvature at the most probable ones (Laplace's
// approximation), where a record far out of line says nothing, and nor does a bound: on its other side all is as likely.
func (m model) spread(f *fitted) error {
	r := m.residuals(f.at)
	weight := func(i int) float64 {
		if m.records[i].bound {
			return 0
		}
		s := f.scatter[m.records[i].kind]
		x := r[i] * r[i] / (s * s)
		return max(0, (freedom+1)*(freedom-x)/((freedom+x)*(freedom+x))) / (s * s)
	}
	var c mat.Cholesky
	if !c.Factorize(m.curvature(m.slopes(f.at), weight)) {
		return errNotSure
	}
	f.covariance = mat.NewSymDense(len(f.at), nil)
	if err := c.InverseTo(f.covariance); err != nil {
		return errors.Join(errNotSure, err)
	}
	return nil
}

// combined is the mean and standard deviation of the sum of some parameters.
func (f fitted) combined(parameters ...int) (mean, sd float64) {
	var variance float64
	for _, a := range parameters {
		mean += f.at[a]
		for _, b := range parameters {
			variance += f.covariance.At(a, b)
		}
	}
	return mean, math.Sqrt(max(0, variance))
}
