// The cautions say what design and trade demand of them, in the order of the work.
#include "ohmlore/cautions.h"

#include <gtest/gtest.h>

#include <set>
#include <vector>

namespace ohmlore {
namespace {

TEST(Cautions, StandInTheOrderOfTheWork) {
  std::vector<std::string_view> ids;
  for (const Caution& caution : cautions()) ids.push_back(caution.id);
  EXPECT_EQ(ids, (std::vector<std::string_view>{"dead-test-only", "isolate", "prove-dead", "stored-charge",
                                                "licensed-work", "maker-first", "never-bridge",
                                                "plug-and-part-only", "no-return-to-service"}));
}

TEST(Cautions, TextHoldsEveryOneInOrder) {
  const std::string text = cautions_text();
  std::size_t at = 0;
  for (const Caution& caution : cautions()) {
    at = text.find(caution.text, at);
    ASSERT_NE(at, std::string::npos) << caution.id;
  }
}

}
}
