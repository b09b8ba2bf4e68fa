// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "app/batch/notebook_verbs.h"
#include "core/custody/custody.h"
#include "core/labels/code.h"
#include "core/labels/label.h"
#include "core/labels/layout.h"

namespace prillbook::batch {
namespace {

using labels::Label;
using labels::LabelKind;

Result<labels::Layout> wished_layout(const LabelsWish& wish) {
  if (wish.layout.empty() == wish.layout_file.empty())
    return Error{wish.layout.empty() ? ErrorCode::missing_key : ErrorCode::conflict,
                 "--layout",
                 "give --layout or --layout-file, one of the two",
                 {}};
  if (!wish.layout.empty()) {
    auto found = labels::layout_by_name(wish.layout);
    if (found) return found;
    // A name that is wrong is a bad value, not a file that is not there.
    return Error{ErrorCode::out_of_range, "--layout", found.error().detail, found.error().arguments};
  }
  std::ifstream stream(wish.layout_file, std::ios::binary);
  if (!stream)
    return Error{ErrorCode::not_found,
                 "--layout-file",
                 fmt::format("{}: the file can not be opened", wish.layout_file),
                 {wish.layout_file}};
  return labels::parse_layout(std::string(std::istreambuf_iterator<char>(stream), {}));
}

Result<std::vector<LabelKind>> wished_kinds(const LabelsWish& wish) {
  if (wish.kinds.empty())
    return wish.samples.empty() ? std::vector{LabelKind::bag} : std::vector{LabelKind::bag, LabelKind::portion};
  std::vector<LabelKind> kinds;
  for (const std::string& name : wish.kinds) {
    PRILLBOOK_ASSIGN(const LabelKind kind, labels::kind_by_name(name));
    kinds.push_back(kind);
  }
  return kinds;
}

Result<std::vector<Label>> wished_labels(store::Connection& connection, const LabelsWish& wish) {
  if (wish.samples.empty() == wish.consignment.empty())
    return Error{wish.samples.empty() ? ErrorCode::missing_key : ErrorCode::conflict,
                 "--sample",
                 "say whose labels: --sample or --consignment, one of the two",
                 {}};
  PRILLBOOK_ASSIGN(const auto kinds, wished_kinds(wish));
  if (!wish.consignment.empty()) {
    PRILLBOOK_ASSIGN(const labels::Place place, labels::find(connection, {labels::CodeKind::consignment, wish.consignment, 0}));
    return labels::labels_of(connection, ConsignmentId{place.record}, kinds);
  }
  std::vector<Label> all;
  for (const std::string& number : wish.samples) {
    PRILLBOOK_ASSIGN(const SampleId id, custody::sample_by_number(connection, number));
    PRILLBOOK_ASSIGN(auto some, labels::labels_of(connection, id, kinds));
    all.insert(all.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
  }
  return all;
}

}  // namespace

Result<Json> notebook_labels(const LabelsWish& wish, World& world) {
  if (wish.out.empty()) return Error{ErrorCode::missing_key, "--out", "say where to: --out PDF", {}};
  if (!world.write_labels) return Error{ErrorCode::conflict, "--out", "this program can not paint", {}};
  PRILLBOOK_ASSIGN(const labels::Layout layout, wished_layout(wish));
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(wish.file));
  PRILLBOOK_ASSIGN(const auto all, wished_labels(*connection, wish));
  if (all.empty()) return Error{ErrorCode::missing_key, "--what", "there is no label of this kind to print", {}};
  PRILLBOOK_ASSIGN(const auto spots, labels::spots(layout, all.size(), wish.start));
  PRILLBOOK_TRY(world.write_labels(all, layout, wish.start, wish.out));
  Json codes = Json::array();
  for (const Label& label : all)
    if (!label.code.empty()) codes.push_back(label.code);
  return Json{{"pdf", wish.out}, {"labels", all.size()}, {"sheets", spots.back().sheet + 1}, {"codes", std::move(codes)}};
}

Result<Json> notebook_bench_sheets(const BenchSheetsWish& wish, World& world) {
  if (wish.out.empty()) return Error{ErrorCode::missing_key, "--out", "say where to: --out PDF", {}};
  if (wish.paper != "a4" && wish.paper != "letter")
    return Error{ErrorCode::out_of_range, "--paper", fmt::format("'{}' is neither a4 nor letter", wish.paper), {wish.paper}};
  if (!world.write_bench_sheets) return Error{ErrorCode::conflict, "--out", "this program can not paint", {}};
  PRILLBOOK_TRY(world.write_bench_sheets(wish.names, wish.paper == "letter", wish.out));
  return Json{{"pdf", wish.out}, {"paper", wish.paper}};
}

}  // namespace prillbook::batch
