#include "ohmlore/quantity.h"

namespace ohmlore {
namespace {

struct Words {
  std::string_view name, example;
};
constexpr Words words[] = {
    {"a resistance (Ω)", "10 kΩ"},
    {"a voltage (V)", "24 V dc"},
    {"a current (A)", "150 mA"},
    {"a power (W)", "12 W"},
    {"a capacitance (F)", "4 µF"},
    {"a temperature (°C)", "25 °C"},
    {"a temperature difference (K)", "3 K"},
    {"a thermal constant (K)", "3977 K"},
    {"a coefficient (K^-1)", "3.9083e-3 K^-1"},
    {"a coefficient (K^-2)", "-5.775e-7 K^-2"},
    {"a coefficient (K^-3)", "9.9e-8 K^-3"},
    {"a coefficient (K^-4)", "-4.183e-12 K^-4"},
    {"a coefficient (K^-5)", "1.5e-15 K^-5"},
    {"a coefficient (K^-6)", "1.5e-18 K^-6"},
    {"a duration (s)", "30 s"},
    {"a ratio (%)", "5 %"},
};

const Words& words_of(Dimension dimension) { return words[static_cast<std::size_t>(dimension)]; }

}

std::string_view dimension_name(Dimension dimension) { return words_of(dimension).name; }
std::string_view dimension_example(Dimension dimension) { return words_of(dimension).example; }

}
