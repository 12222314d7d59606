#include "judge/asked.h"

namespace ohmlore {

bool asks_both_directions(const Test& test) {
  return test.expect.kind && *test.expect.kind == Expectation_kind::both_directions;
}

bool compares_twins(const Test& test) {
  return test.expect.kind && *test.expect.kind == Expectation_kind::pair;
}

bool watches_it_rise(const Test& test) {
  return (test.expect.kind && *test.expect.kind == Expectation_kind::rises_to_open) ||
         (test.response.kind && *test.response.kind == Response_kind::rises_to_open);
}

bool is_swept(const Test& test) {
  return (test.expect.kind && *test.expect.kind == Expectation_kind::smooth_sweep) ||
         (test.response.kind && *test.response.kind == Response_kind::smooth_sweep);
}

bool toggles(const Test& test) {
  return test.response.kind && *test.response.kind == Response_kind::toggles_with_magnet;
}

bool rests_in_either(const Resolved_component& component, const Test& test) {
  return component.has(&Component_type::pulse, true) && toggles(test);
}

bool asks_for_response(const Test& test) { return test.response.kind || watches_it_rise(test); }

}
