#include "fit/solve.h"

#include <cmath>

namespace ohmlore {

std::vector<double> Matrix::times(std::span<const double> vector) const {
  std::vector<double> out(size_);
  for (std::size_t i = 0; i < size_; ++i)
    for (std::size_t k = 0; k < size_; ++k) out[i] += at(i, k) * vector[k];
  return out;
}

double Matrix::square(std::span<const double> vector) const {
  double sum = 0;
  for (std::size_t i = 0; i < size_; ++i) {
    if (vector[i] == 0) continue;
    for (std::size_t k = 0; k < size_; ++k) sum += vector[i] * at(i, k) * vector[k];
  }
  return sum;
}

void Normal_equations::add(std::span<const double> row, double value, double weight) {
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (row[i] == 0) continue;
    const double weighted = weight * row[i];
    for (std::size_t k = 0; k <= i; ++k) matrix_.at(i, k) += weighted * row[k];
    right_[i] += weighted * value;
  }
}

namespace {

// The lower triangle of a positive definite matrix, each row and column scaled to a diagonal of 1 first, so
// that a pivot tells how much of a parameter the others leave undetermined.
struct Factored {
  Matrix lower;
  std::vector<double> scale;
};

std::optional<Factored> factored(const Matrix& matrix) {
  const std::size_t size = matrix.size();
  Factored out{Matrix(size), std::vector<double>(size)};
  for (std::size_t i = 0; i < size; ++i) {
    if (!(matrix.at(i, i) > 0) || !std::isfinite(matrix.at(i, i))) return std::nullopt;
    out.scale[i] = 1 / std::sqrt(matrix.at(i, i));
  }
  constexpr double least_pivot = 1e-13;
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t k = 0; k <= i; ++k) {
      double sum = matrix.at(i, k) * out.scale[i] * out.scale[k];
      for (std::size_t j = 0; j < k; ++j) sum -= out.lower.at(i, j) * out.lower.at(k, j);
      if (i == k && !(sum > least_pivot)) return std::nullopt;
      out.lower.at(i, k) = i == k ? std::sqrt(sum) : sum / out.lower.at(k, k);
    }
  return out;
}

std::vector<double> solved(const Factored& factors, std::vector<double> right) {
  const Matrix& lower = factors.lower;
  const std::size_t size = lower.size();
  for (std::size_t i = 0; i < size; ++i) {
    double sum = right[i] * factors.scale[i];
    for (std::size_t k = 0; k < i; ++k) sum -= lower.at(i, k) * right[k];
    right[i] = sum / lower.at(i, i);
  }
  for (std::size_t i = size; i-- > 0;) {
    double sum = right[i];
    for (std::size_t k = i + 1; k < size; ++k) sum -= lower.at(k, i) * right[k];
    right[i] = sum / lower.at(i, i);
  }
  for (std::size_t i = 0; i < size; ++i) right[i] *= factors.scale[i];
  return right;
}

}

std::optional<std::vector<double>> Normal_equations::solution() const {
  const auto factors = factored(matrix_);
  if (!factors) return std::nullopt;
  return solved(*factors, right_);
}

std::optional<Matrix> Normal_equations::inverse() const {
  const auto factors = factored(matrix_);
  if (!factors) return std::nullopt;
  const std::size_t size = right_.size();
  Matrix out(size);
  for (std::size_t i = 0; i < size; ++i) {
    std::vector<double> unit(size);
    unit[i] = 1;
    const std::vector<double> column = solved(*factors, std::move(unit));
    for (std::size_t k = 0; k < size; ++k) out.at(k, i) = column[k];
  }
  return out;
}

}
