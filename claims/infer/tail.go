package infer

import "math"

// The functions in this file return natural logarithms of tail areas. They
// take arguments that their callers have checked.

// logNormalUpper returns ln P(Z > z) for a standard normal Z.
func logNormalUpper(z float64) float64 {
	switch {
	case z < -1:
		return math.Log1p(-0.5 * math.Erfc(-z/math.Sqrt2))
	case z < 25:
		return math.Log(0.5 * math.Erfc(z/math.Sqrt2))
	}
	// Continued fraction of Mills' ratio: 1/(z + 1/(z + 2/(z + 3/...))).
	f := z
	for i := 30; i > 0; i-- {
		f = z + float64(i)/f
	}
	return -0.5*z*z - 0.5*math.Log(2*math.Pi) - math.Log(f)
}

// logTUpper returns ln P(T > t) for Student's t with df degrees of freedom.
//
//	P(T > t) = I_x(df/2, 1/2) / 2,  x = df / (df + t²),  t ≥ 0
//
// Beyond 1e5 df the normal deviate of Hill (1970), CACM 13:617-619, takes its
// place; the two agree to 1e-12 there.
func logTUpper(t, df float64) float64 {
	if t < 0 {
		return log1mexp(logTUpper(-t, df))
	}
	if math.IsInf(df, 1) {
		return logNormalUpper(t)
	}
	ratio := t / math.Sqrt(df)
	r := ratio * ratio // t²/df
	switch {
	case r == 0:
		return -math.Ln2
	case df > 1e5:
		a := df - 0.5
		b := 48 * a * a
		y := a * math.Log1p(r)
		z := (((((-0.4*y-3.3)*y-24)*y-85.5)/(0.8*y*y+100+b)+y+3)/b + 1) * math.Sqrt(y)
		return logNormalUpper(z)
	case ratio > 1e100:
		return logIncBeta(df/2, 0.5, 0, 1, -2*math.Log(ratio), 0) - math.Ln2
	}
	x := 1 / (1 + r)
	return logIncBeta(df/2, 0.5, x, r*x, -math.Log1p(r), -math.Log1p(1/r)) - math.Ln2
}

// logFUpper returns ln P(F > f) for an F with d1 and d2 degrees of freedom; d2
// may be infinite.
//
//	P(F > f) = I_x(d2/2, d1/2),  x = d2 / (d2 + d1 f)
func logFUpper(f, d1, d2 float64) float64 {
	if f <= 0 {
		return 0
	}
	if math.IsInf(d2, 1) {
		return logGammaUpper(d1/2, d1*f/2)
	}
	r := d1 / d2 * f
	switch {
	case r == 0:
		return 0
	case r > 1e200:
		return logIncBeta(d2/2, d1/2, 0, 1, -math.Log(d1/d2)-math.Log(f), 0)
	}
	x := 1 / (1 + r)
	return logIncBeta(d2/2, d1/2, x, r*x, -math.Log1p(r), -math.Log1p(1/r))
}

// logIncBeta returns ln I_x(a, b), the regularised incomplete beta function,
// with y = 1 - x and the logarithms of x and y given so that no digit is lost
// when either is tiny.
//
// Source: continued fraction of Didonato & Morris (1992), TOMS 18:360-373
// (algorithm 708, bfrac), the even part of DLMF 8.17.22. It takes the distance
// from the mean, a - (a+b)x, from y where x is too near 1 to hold it.
func logIncBeta(a, b, x, y, lx, ly float64) float64 {
	if x > (a+1)/(a+b+2) {
		return log1mexp(logIncBetaFraction(b, a, y, x, ly, lx))
	}
	return logIncBetaFraction(a, b, x, y, lx, ly)
}

func logIncBetaFraction(a, b, x, y, lx, ly float64) float64 {
	c := 1 + a - (a+b)*x
	if y < 0.5 {
		c = 1 + (a+b)*y - b
	}
	c0, c1 := b/a, 1+1/a
	p, s := 1.0, a+1
	an, bn, anext, bnext := 0.0, 1.0, 1.0, c/c1
	r := c1 / c
	for i := 1; i < 200000; i++ {
		n := float64(i)
		t, w, e := n/a, n*(b-n)*x, a/s
		alpha := p * (p + c0) * e * e * w * x
		e = (1 + t) / (c1 + 2*t)
		beta := n + w/s + e*(c+n*(1+y))
		p, s = 1+t, s+2
		an, anext = anext, alpha*an+beta*anext
		bn, bnext = bnext, alpha*bn+beta*bnext
		last := r
		r = anext / bnext
		if math.Abs(r-last) <= 1e-16*r {
			break
		}
		an, bn, anext, bnext = an/bnext, bn/bnext, r, 1 // keep in range
	}
	return a*lx + b*ly - logBeta(a, b) + math.Log(r)
}

// logBeta returns ln B(a, b) without the cancellation of three log gammas.
func logBeta(a, b float64) float64 {
	p, q := min(a, b), max(a, b)
	switch {
	case p >= 10:
		return -0.5*math.Log(q) + 0.5*math.Log(2*math.Pi) + stirling(p) + stirling(q) - stirling(p+q) +
			(p-0.5)*math.Log(p/(p+q)) + q*math.Log1p(-p/(p+q))
	case q >= 10:
		return logGamma(p) + stirling(q) - stirling(p+q) + p - p*math.Log(p+q) + (q-0.5)*math.Log1p(-p/(p+q))
	}
	return logGamma(p) + logGamma(q) - logGamma(p+q)
}

func logGamma(x float64) float64 {
	lg, _ := math.Lgamma(x)
	return lg
}

// stirling returns ln Γ(x) - ((x - ½) ln x - x + ½ ln 2π).
func stirling(x float64) float64 {
	if x < 10 {
		return logGamma(x) - ((x-0.5)*math.Log(x) - x + 0.5*math.Log(2*math.Pi))
	}
	r := 1 / (x * x)
	return (1.0/12 - r*(1.0/360-r*(1.0/1260-r*(1.0/1680-r*(1.0/1188-r*691.0/360360))))) / x
}

// logGammaUpper returns ln Q(a, x), the upper regularised incomplete gamma
// function: the tail of chi-squared with 2a degrees of freedom beyond 2x.
func logGammaUpper(a, x float64) float64 {
	if x <= 0 {
		return 0
	}
	// ln(x^a e^-x / Γ(a)), with the large parts cancelled on paper.
	front := a*(math.Log(x/a)-(x/a-1)) + 0.5*math.Log(a/(2*math.Pi)) - stirling(a)
	if d := (x - a) / a; math.Abs(d) < 0.5 {
		front = a*(math.Log1p(d)-d) + 0.5*math.Log(a/(2*math.Pi)) - stirling(a)
	}
	if x < a+1 { // series for the lower part
		term, sum := 1/a, 1/a
		for n := a + 1; term > sum*1e-17; n++ {
			term *= x / n
			sum += term
		}
		return log1mexp(front + math.Log(sum))
	}
	const tiny = 1e-300
	b := x + 1 - a
	c, d := 1/tiny, 1/b
	h := d
	for i := 1; i < 200000; i++ {
		n := float64(i)
		an := -n * (n - a)
		b += 2
		d = an*d + b
		if math.Abs(d) < tiny {
			d = tiny
		}
		c = b + an/c
		if math.Abs(c) < tiny {
			c = tiny
		}
		d = 1 / d
		step := d * c
		h *= step
		if math.Abs(step-1) < 3e-16 {
			break
		}
	}
	return front + math.Log(h)
}

// log1mexp returns ln(1 - e^x) for x ≤ 0.
func log1mexp(x float64) float64 {
	if x > -math.Ln2 {
		return math.Log(-math.Expm1(x))
	}
	return math.Log1p(-math.Exp(x))
}
