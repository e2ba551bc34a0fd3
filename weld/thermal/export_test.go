package thermal

// ScaledK0 lets the tests outside see the Bessel function.
var ScaledK0 = scaledK0
