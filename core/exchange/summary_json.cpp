// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/summary_json.h"

#include <nlohmann/json.hpp>

#include "core/base/number.h"
#include "core/exchange/columns.h"
#include "core/store/part_file.h"

namespace prillbook::exchange {
namespace {

using Json = nlohmann::ordered_json;
using namespace summary;  // the blocks of the document

// A number of the list; null never: an empty cell has no key.
Json number_of(const std::string& digits) {
  const auto number = parse_number(digits, DecimalMark::point);
  return number.ok() ? Json(number->value) : Json(digits);
}

Json cell_json(const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  Json figures = Json::array();
  for (const summary::Figure& figure : std::get<std::vector<summary::Figure>>(cell)) figures.push_back(with_unit(figure));
  return figures;
}

// What stands on the page, a block an object.
struct BlockWriter {
  Json operator()(const Heading& heading) const { return {{"heading", heading.text}, {"level", heading.level}}; }
  Json operator()(const Paragraph& paragraph) const { return {{"text", paragraph.text}}; }
  Json operator()(const Table& table) const {
    Json object{{"columns", Json::array()}, {"rows", Json::array()}};
    for (const Column& column : table.columns) object["columns"].push_back(column.title);
    for (const TableRow& row : table.rows) {
      Json cells = Json::array();
      for (const Cell& cell : row.cells) cells.push_back(cell_json(cell));
      Json line{{"cells", std::move(cells)}};
      if (!row.note.empty()) line["note"] = row.note;
      object["rows"].push_back(std::move(line));
    }
    return object;
  }
  Json operator()(const IntervalPicture& picture) const {
    Json object{{"picture", Json::array()}};
    for (const PictureRow& row : picture.rows)
      object["picture"].push_back({{"label", row.label}, {"figure", with_unit(row.figure)}});
    return object;
  }
  Json operator()(const SievePicture& picture) const {
    Json object{{"curves", Json::array()}};
    for (const SieveCurve& curve : picture.curves) object["curves"].push_back({{"label", curve.label}, {"points", curve.points}});
    return object;
  }
  Json operator()(const Photograph& photograph) const {
    return {{"photograph", photograph.hash}, {"caption", photograph.caption}};
  }
  Json operator()(const Cautions& cautions) const { return {{"cautions", cautions.sentences}}; }
  Json operator()(const Signature& signature) const { return {{"signature_of", signature.label}}; }
  Json operator()(const EndMark& end) const { return {{"end", end.text}, {"notebook_state", end.notebook_state}}; }
};

Json result_json(const ResultLine& line) {
  const auto heads = summary_columns();
  const auto cells = summary_cells(line, DecimalMark::point);
  Json object = Json::object();
  for (std::size_t i = 0; i < heads.size(); ++i)
    if (!cells[i].empty()) object[std::string(heads[i].name)] = heads[i].number ? number_of(cells[i]) : Json(cells[i]);
  return object;
}

Json reading_json(const ReadingLine& line) {
  Json object{{"sample", line.sample}};
  const auto put = [&](const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
  };
  put("test", line.test);
  put("what", line.what);
  put("typed", line.typed);
  if (line.value) object["value"] = *line.value;
  put("unit", line.unit);
  if (line.below) object["below"] = true;
  if (line.step_g) object["step_g"] = *line.step_g;
  put("balance", line.balance);
  put("who", line.who);
  if (line.when) object["when"] = to_iso(*line.when);
  put("left_out", line.left_out);
  return object;
}

}  // namespace

std::string summary_json(const Report& report) {
  Json object{{"format", "summary"}, {"version", 1}, {"title", report.title}};
  if (!report.number.empty()) object["number"] = report.number;
  object["language"] = wording::name_of(report.say.language()).code;
  object["draft"] = report.draft;
  object["preliminary"] = report.preliminary;
  object["date"] = report.issued;
  object["lab"] = report.letterhead;
  object["client"] = report.client;
  object["page"] = Json::array();
  for (const Block& block : report.blocks) object["page"].push_back(std::visit(BlockWriter(), block));
  object["results"] = Json::array();
  for (const ResultLine& line : report.lines) object["results"].push_back(result_json(line));
  object["readings"] = Json::array();
  for (const ReadingLine& line : report.readings) object["readings"].push_back(reading_json(line));
  return object.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<void> write_summary_json(const Report& report, const std::string& path) {
  return store::write_whole(path, summary_json(report));
}

}  // namespace prillbook::exchange
