// Numbers of 300 bits from MPFR: what the tests take as the true value.
#pragma once

#include <mpfr.h>

namespace ohmlore::test {

class Precise {
public:
  Precise(double x) : Precise() { mpfr_set_d(value_, x, MPFR_RNDN); }
  /// A decimal, without the detour over the nearest double.
  explicit Precise(const char* decimal) : Precise() { mpfr_set_str(value_, decimal, 10, MPFR_RNDN); }
  Precise(const Precise& other) : Precise() { mpfr_set(value_, other.value_, MPFR_RNDN); }
  Precise& operator=(const Precise& other) {
    mpfr_set(value_, other.value_, MPFR_RNDN);
    return *this;
  }
  ~Precise() { mpfr_clear(value_); }

  friend Precise operator+(Precise a, const Precise& b) {
    mpfr_add(a.value_, a.value_, b.value_, MPFR_RNDN);
    return a;
  }
  friend Precise operator-(Precise a, const Precise& b) {
    mpfr_sub(a.value_, a.value_, b.value_, MPFR_RNDN);
    return a;
  }
  friend Precise operator*(Precise a, const Precise& b) {
    mpfr_mul(a.value_, a.value_, b.value_, MPFR_RNDN);
    return a;
  }
  friend Precise operator/(Precise a, const Precise& b) {
    mpfr_div(a.value_, a.value_, b.value_, MPFR_RNDN);
    return a;
  }
  friend Precise exp(Precise x) {
    mpfr_exp(x.value_, x.value_, MPFR_RNDN);
    return x;
  }
  friend Precise log(Precise x) {
    mpfr_log(x.value_, x.value_, MPFR_RNDN);
    return x;
  }
  friend bool operator<=(const Precise& a, const Precise& b) { return mpfr_lessequal_p(a.value_, b.value_); }
  double nearest() const { return mpfr_get_d(value_, MPFR_RNDN); }

private:
  Precise() { mpfr_init2(value_, 300); }
  mpfr_t value_;
};

}
