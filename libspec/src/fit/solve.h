// Small dense least squares.
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace ohmlore {

/// Symmetric, kept whole.
class Matrix {
public:
  explicit Matrix(std::size_t size = 0) : size_(size), values_(size * size) {}
  std::size_t size() const { return size_; }
  double& at(std::size_t row, std::size_t column) { return values_[row * size_ + column]; }
  double at(std::size_t row, std::size_t column) const { return values_[row * size_ + column]; }
  std::vector<double> times(std::span<const double> vector) const;
  /// vectorᵀ · matrix · vector
  double square(std::span<const double> vector) const;

private:
  std::size_t size_;
  std::vector<double> values_;
};

/// Σ weight (value - row · solution)² becomes least.
class Normal_equations {
public:
  explicit Normal_equations(std::size_t size) : matrix_(size), right_(size) {}
  void add(std::span<const double> row, double value, double weight);
  /// Empty where the rows do not determine it.
  std::optional<std::vector<double>> solution() const;
  std::optional<Matrix> inverse() const;

private:
  Matrix matrix_;
  std::vector<double> right_;
};

}
