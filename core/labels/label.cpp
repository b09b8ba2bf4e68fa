// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/label.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/base/text.h"
#include "core/custody/custody.h"
#include "core/fire/charge_record.h"
#include "core/lab/lab.h"
#include "core/lab/settings.h"
#include "core/labels/code.h"
#include "core/portions/portions.h"

namespace prillbook::labels {
namespace {

using portions::Portion;

struct Substance {
  std::string_view stem, word;  // what a remark says, what the label says
};
constexpr std::array<Substance, 11> substances{{{"lead", "lead"},
                                                {"mercury", "mercury"},
                                                {"amalgam", "mercury"},
                                                {"arsenic", "arsenic"},
                                                {"arsenopyrite", "arsenic"},
                                                {"antimony", "antimony"},
                                                {"stibnite", "antimony"},
                                                {"tellur", "tellurium"},
                                                {"cyanid", "cyanide"},
                                                {"acid", "acid"},
                                                {"asbest", "asbestos"}}};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80; }

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : lower_ascii(text) + ' ') {
    if (is_letter(c)) {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  return words;
}

// "lead" is a word of its own; the other stems take endings ("tellurides", "cyanided").
bool word_names(const std::string& word, const Substance& substance) {
  return substance.stem == "lead" ? word == "lead" : word.starts_with(substance.stem);
}

void add(std::vector<std::string>& list, std::string_view word) {
  if (std::find(list.begin(), list.end(), word) == list.end()) list.emplace_back(word);
}

void add_all(std::vector<std::string>& list, const std::optional<std::string>& remark) {
  if (!remark) return;
  for (const std::string& word : hazards_in(*remark)) add(list, word);
}

bool is_kept(const Portion& portion) { return portion.purpose == "reject" || portion.purpose == "retain"; }

// Everything of one sample that its labels say.
class Gatherer {
 public:
  static Result<Gatherer> of(store::Connection& connection, SampleId id) {
    Gatherer gatherer(connection);
    PRILLBOOK_ASSIGN(gatherer.sample_, custody::sample(connection, id));
    PRILLBOOK_ASSIGN(const custody::Consignment consignment, custody::consignment(connection, gatherer.sample_.consignment));
    PRILLBOOK_ASSIGN(const lab::Client client, lab::client(connection, consignment.client));
    PRILLBOOK_ASSIGN(gatherer.settings_, lab::settings(connection));
    PRILLBOOK_ASSIGN(gatherer.portions_, portions::portions_of(connection, id));
    std::sort(gatherer.portions_.begin(), gatherer.portions_.end(),
              [](const auto& a, const auto& b) { return a.number < b.number; });
    gatherer.arrived_ = local_date(consignment.arrived);
    gatherer.client_ = client.name;
    return gatherer;
  }

  const std::vector<Portion>& portions() const { return portions_; }

  Label bag() const {
    Label label = begun(LabelKind::bag, sample_.number, sample_.mass_received, arrived_);
    label.code = code_text({CodeKind::sample, sample_.number, 0});
    label.client = client_;
    label.what = sample_.kind.value_or("sample");
    return label;
  }

  Label of(const Portion& portion, LabelKind kind) const {
    const std::string number = fmt::format("{}/{}", sample_.number, portion.number);
    Label label = begun(kind, number, portion.mass, portion.cut_at ? local_date(*portion.cut_at) : arrived_);
    label.code = code_text({CodeKind::portion, sample_.number, portion.number});
    label.what = portion.purpose;
    if (kind == LabelKind::reject) label.client = client_;
    add_all(label.hazards, portion.remarks);
    return label;
  }

  // The flux of a charge holds litharge: what comes out of the furnace holds lead.
  Label of_charge(const Portion& portion, const fire::Charge& charge) const {
    Label label = of(portion, LabelKind::charge);
    label.code = code_text({CodeKind::charge, sample_.number, portion.number});
    label.what = "charge";
    if (charge.fired_at) label.date = local_date(*charge.fired_at);
    add(label.hazards, "lead");
    add_all(label.hazards, charge.remarks);
    return label;
  }

  Label lead_waste(const std::string& date) const {
    Label label = begun(LabelKind::lead_waste, {}, {}, date);
    label.mark = "spent cupels, slag, pots";
    label.what = "lead waste";
    label.hazards = {"lead"};
    return label;
  }

  // A portion, and the charge that it became.
  Result<void> add_portion(std::vector<Label>& list, const Portion& portion, const std::vector<LabelKind>& kinds) const {
    const auto wanted = [&](LabelKind kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
    if (is_kept(portion) ? wanted(LabelKind::reject) : wanted(LabelKind::portion))
      list.push_back(of(portion, is_kept(portion) ? LabelKind::reject : LabelKind::portion));
    if (!wanted(LabelKind::charge)) return {};
    PRILLBOOK_ASSIGN(const auto charges, fire::charges_of(*connection_, portion.id));
    for (const fire::Charge& charge : charges) list.push_back(of_charge(portion, charge));
    return {};
  }

 private:
  explicit Gatherer(store::Connection& connection) : connection_(&connection) {}

  Label begun(LabelKind kind, std::string number, const readings::Figure& mass, std::string date) const {
    Label label;
    label.kind = kind;
    label.number = std::move(number);
    label.mark = sample_.mark;
    label.date = std::move(date);
    label.lab = settings_.lab_name;
    add_all(label.hazards, sample_.remarks);
    if (!mass) return label;
    const auto said = portions::in_words(mass->mass());
    std::string digits = said.number;
    if (settings_.decimal_mark == DecimalMark::comma) std::replace(digits.begin(), digits.end(), '.', ',');
    label.mass = fmt::format("{} {}", digits, said.unit);
    return label;
  }

  store::Connection* connection_;
  custody::Sample sample_;
  lab::Settings settings_;
  std::vector<Portion> portions_;
  std::string arrived_, client_;
};

// One box of waste for all of them: a single label, of the last day, at the end.
void keep_one_waste(std::vector<Label>& list) {
  const auto waste =
      std::stable_partition(list.begin(), list.end(), [](const Label& one) { return one.kind != LabelKind::lead_waste; });
  if (waste == list.end()) return;
  const auto last = std::max_element(waste, list.end(), [](const Label& a, const Label& b) { return a.date < b.date; });
  std::iter_swap(waste, last);
  list.erase(waste + 1, list.end());
}

bool holds(const std::vector<LabelKind>& kinds, LabelKind kind) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

}  // namespace

std::string_view kind_name(LabelKind kind) {
  switch (kind) {
    case LabelKind::bag: return "bag";
    case LabelKind::portion: return "portion";
    case LabelKind::charge: return "charge";
    case LabelKind::reject: return "reject";
    case LabelKind::lead_waste: return "lead-waste";
  }
  return "bag";
}

Result<LabelKind> kind_by_name(std::string_view name) {
  for (const LabelKind kind : {LabelKind::bag, LabelKind::portion, LabelKind::charge, LabelKind::reject, LabelKind::lead_waste})
    if (kind_name(kind) == name) return kind;
  return Error{ErrorCode::out_of_range, "--what", fmt::format("there are no labels of the kind '{}'", name), {std::string(name)}};
}

std::vector<std::string> hazards_in(std::string_view remark) {
  std::vector<std::string> found;
  std::string before;
  for (const std::string& word : words_of(remark)) {
    for (const Substance& substance : substances)
      if (word_names(word, substance) && before != "no" && before != "without") add(found, substance.word);
    before = word;
  }
  return found;
}

Result<std::vector<Label>> labels_of(store::Connection& connection, SampleId sample, const std::vector<LabelKind>& kinds) {
  PRILLBOOK_ASSIGN(const Gatherer gatherer, Gatherer::of(connection, sample));
  std::vector<Label> list;
  if (holds(kinds, LabelKind::bag)) list.push_back(gatherer.bag());
  std::string last_fired;
  for (const Portion& portion : gatherer.portions()) {
    PRILLBOOK_TRY(gatherer.add_portion(list, portion, kinds));
    PRILLBOOK_ASSIGN(const auto charges, fire::charges_of(connection, portion.id));
    for (const fire::Charge& charge : charges)
      if (charge.fired_at) last_fired = std::max(last_fired, local_date(*charge.fired_at));
  }
  // Spent cupels and slag come of a fusion.
  if (holds(kinds, LabelKind::lead_waste) && !last_fired.empty()) list.push_back(gatherer.lead_waste(last_fired));
  return list;
}

Result<std::vector<Label>> labels_of(store::Connection& connection, ConsignmentId consignment,
                                     const std::vector<LabelKind>& kinds) {
  PRILLBOOK_TRY(custody::consignment(connection, consignment));
  PRILLBOOK_ASSIGN(const auto samples, custody::samples_of(connection, consignment));
  std::vector<Label> list;
  for (const custody::Sample& sample : samples) {
    PRILLBOOK_ASSIGN(std::vector<Label> more, labels_of(connection, sample.id, kinds));
    list.insert(list.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  }
  keep_one_waste(list);
  return list;
}

Result<std::vector<Label>> labels_of(store::Connection& connection, PortionId portion, const std::vector<LabelKind>& kinds) {
  PRILLBOOK_ASSIGN(const Portion held, portions::portion(connection, portion));
  PRILLBOOK_ASSIGN(const Gatherer gatherer, Gatherer::of(connection, held.sample));
  std::vector<Label> list;
  PRILLBOOK_TRY(gatherer.add_portion(list, held, kinds));
  return list;
}

}  // namespace prillbook::labels
