// Where that stands which a reference names.
#include "serve/features.h"
#include "serve/places.h"

namespace ohmlore::serve {

void write_definition(const Asked& asked, std::size_t offset) {
  Json_writer& out = asked.out;
  const Analysis& analysis = asked.workspace.analysis(asked.document);
  const Document& document = analysis.read.document;
  const Node_id node = node_at(document, offset);
  const Target target = node == 0 ? Target::none : target_of(document, node);
  if (target == Target::none) return void(out.Null());
  const Resolved resolved = resolve(document, analysis.around);
  const Declared place = declared(resolved, node, target);
  if (place.document == nullptr) return void(out.Null());
  out.StartObject();
  member(out, "uri",
         place.document == &document ? asked.document.uri
                                     : asked.workspace.uri_of_file(place.document->name()));
  const Node& at = place.document->node(place.key);
  key(out, "range");
  write_range(out, Lines_of_text(place.document->text()), at.begin, at.end, asked.client.encoding);
  out.EndObject();
}

}
