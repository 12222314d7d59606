#include "lint/class_range.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    const auto& m = measured(subject, test);
    if (!m || !m->kelvin || *m->model->kind != Model_kind::iec_60751) return;
    // The widest class stands for one that is not stated.
    Resistance_model model = *m->model;
    const bool classless = !model.tolerance_class;
    if (classless) model.tolerance_class = {Tolerance_class::C, model.node};
    const auto band = expected(subject, test, Taken::generously);
    const auto healthy = model_interval(model, *m->kelvin);
    if (!band || !healthy || band->overlaps(*healthy)) return;
    const auto widest =
        model_interval(model, kelvin_interval(*test.expect.at, Taken::generously), Taken::generously);
    const bool too_low = band->high < healthy->low;
    // Beyond its range a class says nothing; that of film resistors is the narrower one.
    const bool holds = !reaches_beyond(*test.expect.at, class_range(model, Rtd_construction::film));
    const bool sure = !classless && holds && widest && surely_missed(*m, *band, *widest) &&
                      subject.document.complete() && fully_read(*m->model_document, *m->model);
    const auto [asked_for, read] = apart(*expected(subject, test), *healthy);
    sink.report_as(
        sure ? Severity::error : Severity::warning, test.expect.node,
        fmt::format("{} is wholly {} what a Pt{} of class {} reads at {}, {}{}; mend the band, its "
                    "temperature or the sensor's r0",
                    asked_for, too_low ? "below" : "above", fmt::format("{:g}", model.r0->si),
                    word_of(*model.tolerance_class), celsius(*m->kelvin), read,
                    classless ? " (no class is stated; C is the widest)" : ""));
    sink.relate(*m->model_document, m->said, "the model");
  });
}

extern const Rule rtd_outside_class = {
    .family = Family::rtd,
    .severity = Severity::error,
    .summary = "A test expects a band that no platinum sensor of the stated class reads.",
    .check = check,
};

}
