#include "lint/measured.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto metal = component.get(&Component_type::metal);
    const auto model = component.get(&Component_type::model);
    if (!metal || !model || !model->kind || (!component.own->metal && !component.own->model)) continue;
    const Node_id node = component.own->metal ? component.own->metal.node : component.own->model->node;
    const std::string_view own = word_of(**metal);
    if (*model->kind == Model_kind::iec_60751 && **metal != Metal::platinum)
      sink.report(node,
                  fmt::format("{} is of {}, and its model is that of platinum (IEC 60751); state its curve "
                              "as `polynomial` or `table`",
                              component.id, own));
    else if (*model->kind == Model_kind::copper && model->metal && *model->metal != **metal)
      sink.report(node,
                  fmt::format("{} is of {}, and its model is that of {}; remove the wrong one of the two",
                              component.id, own, word_of(*model->metal)));
    else if (*model->kind == Model_kind::copper && !model->metal && !model->k && **metal != Metal::copper)
      sink.report_as(
          Severity::warning, node,
          metal_k(*with_metal(*model, component))
              ? fmt::format(
                    "{} is of {}, and its model names no metal, which means copper: it is taken to go "
                    "by the {} of {}; state `metal` or `k` in the model too",
                    component.id, own, kelvin(copper_k_of(*with_metal(*model, component))), own)
              : fmt::format("{} is of {}, and its model goes by the {} of copper; state `metal` or `k` in "
                            "the model too",
                            component.id, own, kelvin(copper_k_of(*model))));
    else
      continue;
    sink.relate(*model.document, model->node, "the model");
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
