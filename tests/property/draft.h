// A profile under construction: what people write down of an appliance, as JSON text. For tests that make
// many profiles.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "ohmlore/quantity.h"
#include "support/chance.h"

namespace ohmlore::test {

using Members = std::initializer_list<std::pair<std::string_view, std::string>>;

std::string in_quotes(std::string_view text);
std::string object(Members members); ///< members with an empty value are left out
std::string list(const std::vector<std::string>& items);
std::string texts(const std::vector<std::string>& items); ///< a list of quoted texts

/// A quantity as people round it: `digits` significant digits, in quotation marks.
std::string about(double value, Dimension dimension, int digits);
std::string ohms(double value, int digits);
std::string degrees(double celsius);
std::string degrees(double from, double to);
std::string percent(double value);

/// A profile that grows part by part.
class Draft {
public:
  Draft(Chance& chance, int number);

  Chance& chance;
  const int number;

  /// A free contact of a plug of that class, with a pin of its own.
  std::string contact(const std::string& circuit, const std::string& signal);
  /// Several contacts of one plug.
  std::vector<std::string> contacts(const std::string& circuit, const std::vector<std::string>& signals);
  /// Contacts of a plug that sits on the component.
  std::vector<std::string> far_plug(const std::string& where, const std::string& circuit,
                                    const std::vector<std::string>& signals);
  /// A contact that several parts use, declared as shared.
  std::string shared(const std::string& circuit, const std::string& signal);
  /// The protective earth of the mains plug.
  std::string earth();

  void component(const std::string& id, Members members);
  void circuit(const std::string& id, Members members);
  /// A test with the common members filled in from its probes.
  void test(const std::string& id, const std::string& component, const std::string& from,
            const std::string& to, Members members);
  /// A code whose first suspect is a component, and sometimes others.
  void fault(const std::string& component, const std::vector<std::string>& modes,
             const std::vector<std::string>& decided_by, const std::string& raised = {});
  void fault_without_test();
  void hazard(const std::string& text) { hazards_.push_back(text); }
  void waive(const std::string& rule, const std::string& at, const std::string& why);
  /// The wire colour of a contact, where it is not left to chance.
  void paint(const std::string& contact, const std::string& wire);
  void link(const std::string& contact, const std::string& other);

  std::string id() const;
  std::string text() const;

private:
  struct Pin {
    std::string name, signal, circuit, wire, link;
    bool shared = false;
  };
  struct Plug {
    std::string id, circuit, where = "lower edge";
    bool on_board = true;
    int ways = 0;
    int first = 1; ///< number of its first way
    bool lettered = false;
    std::vector<Pin> pins;
  };
  Plug& plug(const std::string& circuit, std::size_t room);
  Pin& pin(const std::string& contact);
  std::string add_pin(Plug& plug, const std::string& signal);
  std::string plug_text(const Plug& plug) const;

  std::vector<Plug> plugs_;
  std::vector<std::string> components_, circuits_, tests_, faults_, hazards_, waivers_;
  std::string earth_;
  bool numbered_on_ = false;
};

}
