#include "lint/measured.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto metal = component.get(&Component_type::metal);
    const auto model = component.get(&Component_type::model);
    if (!model || !model->kind || (!component.own->metal && !component.own->model)) continue;
    const Node_id node = component.own->metal ? component.own->metal.node : component.own->model->node;
    const bool goes_by_k = *model->kind == Model_kind::copper;
    const auto of_metal = with_metal(*model, component);
    if (metal && *model->kind == Model_kind::iec_60751 && **metal != Metal::platinum)
      sink.report(node,
                  fmt::format("{} is of {}, and its model is that of platinum (IEC 60751); state its curve "
                              "as `polynomial` or `table`",
                              component.id, word_of(**metal)));
    else if (metal && goes_by_k && model->metal && *model->metal != **metal)
      sink.report(node,
                  fmt::format("{} is of {}, and its model is that of {}; remove the wrong one of the two",
                              component.id, word_of(**metal), word_of(*model->metal)));
    else if (goes_by_k && !metal_k(*of_metal))
      sink.report_as(
          Severity::warning, node,
          fmt::format("{0} is of {1}, and its model goes by the {2} of copper, as it states no `k`; "
                      "state that of {1}",
                      component.id, word_of(*of_metal->metal), kelvin(copper_k_of(*of_metal))));
    else if (metal && goes_by_k && !model->metal && !model->k && **metal != Metal::copper)
      sink.report_as(
          Severity::warning, node,
          fmt::format("{0} is of {1}, and its model names no metal, which means copper: it is taken to go "
                      "by the {2} of {1}; state `metal` or `k` in the model too",
                      component.id, word_of(**metal), kelvin(copper_k_of(*of_metal))));
    else
      continue;
    if (component.own->metal) sink.relate(*model.document, model->node, "the model");
  }
}

}

extern const Rule metal_contradicts = {
    .family = Family::copper,
    .severity = Severity::error,
    .summary = "A component is of another metal than its model.",
    .check = check,
};

}
