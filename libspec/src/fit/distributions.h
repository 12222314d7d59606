// Distributions that the tests of the fit ask.
#pragma once

namespace ohmlore {

double normal_below(double z);
/// z of the probability below, in (0, 1).
double normal_quantile(double probability);
/// P(X <= x) of chi-square. Relative error of the smaller tail below 1e-10.
double chi_square_below(double x, double freedom);
double chi_square_above(double x, double freedom);
/// P(|t| >= x), Student.
double student_beyond(double x, double freedom);
/// t of P(|t| >= t) = `beyond`, in (0, 1).
double student_two_sided(double beyond, double freedom);
/// P(F >= x).
double fisher_above(double x, double freedom_1, double freedom_2);

}
