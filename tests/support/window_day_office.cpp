// SPDX-License-Identifier: GPL-3.0-or-later
// The scenes of the day away from the bench: what was noticed, the client's pages and files, the lab's own books.
#include <QtCore/QFile>
#include <QtGui/QImage>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QFileDialog>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QPlainTextEdit>
#include <QtWidgets/QToolButton>

#include "tests/support/foot_ear.h"
#include "tests/support/wait.h"
#include "tests/support/window_day.h"
#include "tests/support/window_sight.h"
#include "ui/window/way.h"

namespace prillbook::testing_support {
namespace {

bool wait_for_button(QWidget& window, const QString& words) {
  return wait_until([&] {
    const auto* found = button(window, words);
    return found && found->isEnabled();
  });
}

void name_file(const QString& path) {
  for (QWidget* top : QApplication::topLevelWidgets()) {
    auto* dialog = qobject_cast<QFileDialog*>(top);
    if (!dialog || !dialog->isVisible()) continue;
    dialog->findChild<QLineEdit*>("fileNameEdit")->setText(path);
    QMetaObject::invokeMethod(dialog, "accept");
  }
  settle();
}

void write_line(QWidget& window, const QString& name, const QString& words) {
  auto* line = named_in_sight<QLineEdit>(window, name);
  if (!line) return;
  line->setFocus();
  line->selectAll();
  type(words);
}

}  // namespace

// ---- what was noticed

bool WindowDay::findings() {
  if (!bring_in()) return false;
  prepared_();
  press(Qt::Key_0, Qt::ControlModifier);
  const QString sample = standing_.sample;
  if (!wait_until([&] { return take_row(window_, "Findings", sample); })) return not_in_sight(sample);
  return enter("What explains it", words("torn on the way"), "answer.explanation");
}

bool WindowDay::compare() {
  if (!bring_in() || !pan_a_bead()) return false;
  prepared_();
  press(Qt::Key_7, Qt::ControlModifier);
  if (!take_row(window_, "Samples with a weighed bead", standing_.sample)) return not_in_sight(standing_.sample);
  auto* explain = button(window_, "explain");
  if (!explain) return not_in_sight("explain");
  explain->click();
  return enter_in_hand(words("torn at the counter"), "answer.explanation");
}

// A flux blank of its own goes through a load, whose results are held back and then accepted.
bool WindowDay::controls() {
  press(Qt::Key_9, Qt::ControlModifier);
  if (!take_row(window_, "Parts of quality", "What is due")) return not_in_sight("What is due");
  const QString name = words("mixed flux"), load = words("load");
  fill("Name on its label", name);
  if (!choose("It is", 'f', {"control_material.name", name.toStdString()})) return false;
  if (!push("Make a flux blank", {{"portion", ""}})) return false;
  press(Qt::Key_4, Qt::ControlModifier);
  if (!push("Begin a fusion", {{"furnace_run", ""}})) return false;
  if (!enter("Name of the run", load, "furnace_run.name")) return false;
  if (!take_row(window_, "Waiting at the furnace", name)) return not_in_sight(name);
  if (!push("Put it in a crucible", {{"charge", ""}, {"bead", ""}})) return false;
  unfold(window_, "Fusion");
  if (!enter("Run of the fusion", load, "")) return false;
  press(Qt::Key_9, Qt::ControlModifier);
  if (!take_row(window_, "Parts of quality", load)) return not_in_sight(load);
  press_button(window_, "Hold…");
  if (!enter_in_hand(words("slag kept its lead"), "run_decision.reason")) return false;
  return push("Accept", {{"run_decision.decision", "accepted"}});
}

// ---- whose hands it went through

bool WindowDay::custody() {
  if (!bring_in()) return false;
  prepared_();
  unfold(window_, "Pieces and seals");
  if (!push("Add a piece", {{"piece", ""}})) return false;
  if (!enter("Seal found", words("seal"), "piece.seal")) return false;
  unfold(window_, "Bag, tests, due, price, keeping");
  if (!enter("Price agreed", words("a share of it"), "sample.price_agreed")) return false;
  unfold(window_, "Who has it");
  const QString to = words("carrier");
  fill("From", "HM");
  fill("To", to);
  if (!push("Write the hand-over", {{"hand_over", ""}, {"hand_over.to_holder", to.toStdString()}})) return false;
  go_to_sheet(standing_.sample);
  unfold(window_, "Metal and rests of the client");
  const QString whom = words("owner");
  pick("What it is", 'p');
  pick("What became of it", 'r');
  fill("Who took it", whom);
  if (!push("Write it down", {{"own_metal", ""}, {"own_metal.to_whom", whom.toStdString()}})) return false;
  unfold(window_, "Told by telephone");
  const QString told = figure("45") + " g/t";
  pick("Which figure", 'g');
  fill("What was said", told);
  fill("To whom", whom);
  return push("Write it as told", {{"told_figure", ""}, {"told_figure.said", told.toStdString()}});
}

bool WindowDay::photographs() {
  const QString of_bag = brought("bag.png");
  QImage picture(80, 60, QImage::Format_RGB32);
  picture.fill(QColor::fromHsv(standing_.texts % 360, 200, 20 + standing_.texts / 360 % 200));
  picture.save(of_bag);
  go_to_sheet(standing_.sample);
  const auto add = [&] {
    press_button(window_, "Add a photograph…");
    name_file(of_bag);
  };
  if (!attempt(add, [] { return Shown::gone; }, {{"attachment", ""}})) return false;
  auto* row = named_in_sight<QListWidget>(window_, "Photographs");
  if (!row) return not_in_sight("Photographs");
  row->setFocus();
  press(Qt::Key_Return);
  if (!enter("Caption", words("as it came"), "attachment.caption")) return false;
  press_button(window_, "Strike it out…");
  return enter_in_hand("another bag", "");
}

bool WindowDay::list() {
  if (!bring_in()) return false;
  prepared_();
  const QString file = brought("list.csv"), first = words("Winze"), second = words("Winze");
  QFile rows(file);
  if (!rows.open(QIODevice::WriteOnly)) return not_in_sight(file);
  rows.write(QStringLiteral("Mark;Place\n%1;stope\n%2;raise\n").arg(first, second).toUtf8());
  rows.close();
  press_button(window_, "Import a list…");
  name_file(file);
  if (!wait_for_button(window_, "Enter the list")) return not_in_sight("Enter the list");
  return push("Enter the list", {{"sample.mark", first.toStdString()}, {"sample.mark", second.toStdString()}});
}

// ---- what the client gets

bool WindowDay::summary() {
  if (!bring_in() || !pan_a_bead()) return false;
  prepared_();
  press(Qt::Key_8, Qt::ControlModifier);
  if (!take_row(window_, "Clients with samples", client_)) return not_in_sight(client_);
  if (!push("&Begin a draft", {{"summary", ""}, {"summary_sample", ""}})) return false;
  unfold(window_, "Language, title, remarks, price");
  if (!enter("Title, in the place of ours", words("On the adit"), "summary.title")) return false;
  if (!enter("Remarks for the client", words("bring more of it"), "summary.remarks")) return false;
  if (!push("Sieve curves", {{"summary.hidden", "sieves"}})) return false;
  unfold(window_, "Account of a milling lot");
  if (!wait_for_button(window_, "This sample is the head of a milling lot")) return not_in_sight("one sample alone");
  if (!push("This sample is the head of a milling lot", {{"milling_lot", ""}})) return false;
  if (!enter("Mass milled", figure("900"), "milling_lot.mass")) return false;
  stop_signing();
  if (!issue()) return false;
  write_line(window_, "What is different", words("the bead"));
  write_line(window_, "Why", words("a slip"));
  if (!push("A&mend", {{"summary", ""}, {"summary_sample", ""}})) return false;
  if (!push("Drop the draft", {{"summary.struck", "1"}})) return false;
  unfold(window_, "Words of the lab, language");
  auto* edit = named_in_sight<QPlainTextEdit>(window_, "Words of the lab");
  if (!edit) return not_in_sight("Words of the lab");
  edit->setFocus();
  edit->moveCursor(QTextCursor::End);
  type(QString::number(standing_.texts));
  return push("Keep these words", {{"own_text", ""}});
}

bool WindowDay::signed_summary() {
  if (!bring_in() || !pan_a_bead()) return false;
  prepared_();
  press(Qt::Key_8, Qt::ControlModifier);
  if (!take_row(window_, "Clients with samples", client_)) return not_in_sight(client_);
  if (!push("&Begin a draft", {{"summary", ""}, {"summary_sample", ""}})) return false;
  stop_signing();
  if (!make_key() || !issue() || !write_file("Print agai&n…", "signed.pdf")) return false;
  stop_signing();
  return true;
}

// A file of its own: no part of the notebook.
bool WindowDay::make_key() {
  write_line(window_, "Passphrase of the key", "four barren hills");
  const QString to = path("lab.prillkey");
  press_button(window_, "Make a key…");
  name_file(to);
  if (!wait_until([&] { return !news_in_sight(window_).filter("The key is made").isEmpty(); })) return not_in_sight("the key");
  file_(to);
  return true;
}

// A life that was cut off may have left the window signing with a key that is gone.
void WindowDay::stop_signing() {
  unfold(window_, "Sign what is issued");
  press_button(window_, "Do not sign");
}

// The pages are painted first: beside other work that takes a while.
bool WindowDay::issue() {
  constexpr int half_minutes = 10;
  const auto painted = [&] {
    const auto* found = button(window_, "Iss&ue");
    return !found || found->isEnabled();
  };
  const auto once = [&] {
    press_button(window_, "Iss&ue");
    for (int i = 0; i < half_minutes && !wait_until(painted); ++i) continue;
  };
  const auto is_issued = [&] { return button(window_, "A&mend") ? Shown::gone : Shown::refused; };
  return attempt(once, is_issued, {{"summary.issued_by_id", "1"}});
}

bool WindowDay::write_file(const QString& words, const QString& name) {
  if (!wait_for_button(window_, words)) return not_in_sight(words);
  const QString to = path(name);
  window_.say({});
  foot_->forget();
  const QString before = said();
  press_button(window_, words);
  name_file(to);
  // News of a copy of the notebook may take its place at the foot.
  const auto told = [&] { return !(news_in_sight(window_) + foot_->heard()).filter(to).filter("ritten").isEmpty(); };
  wait_until([&] { return told() || (!said().isEmpty() && said() != before); });
  if (told()) return file_(to), true;
  note_refusal({"file", to.toStdString()}, before);
  return false;
}

bool WindowDay::papers() {
  if (!bring_in() || !pan_a_bead()) return false;
  prepared_();
  press(Qt::Key_8, Qt::ControlModifier);
  if (!take_row(window_, "Clients with samples", client_)) return not_in_sight(client_);
  for (const auto& [words, name] : {std::pair("Write as &PDF…", "summary.pdf"), std::pair("as &spreadsheet…", "summary.xlsx"),
                                    std::pair("as &list…", "summary.csv"), std::pair("as &JSON…", "summary.json")})
    if (!write_file(words, name)) return false;
  go_to_sheet(standing_.sample);
  press_button(window_, "Labels…");
  if (!write_file("Write as PDF…", "labels.pdf")) return false;
  press(Qt::Key_1, Qt::ControlModifier);
  if (!write_file("Custody record of all…", "custody.pdf")) return false;
  press(Qt::Key_J, Qt::ControlModifier);
  if (!write_file("Write as CSV…", "journal.csv")) return false;
  return take_copy();
}

bool WindowDay::pictures() {
  if (!sieves() || !enter("On 150 µm", figure("32"), "sieve_cut.retained")) return false;
  prepared_();
  if (!write_file("Save as PNG", "curve.png") || !bring_in()) return false;
  press(Qt::Key_2, Qt::ControlModifier);
  if (!take_row(window_, "Waiting at Preparation", standing_.sample)) return not_in_sight(standing_.sample);
  if (!write_file("Print the picture", "picture.pdf")) return false;
  auto* picture = named_in_sight<QWidget>(window_, "Mass picture");
  if (!picture) return not_in_sight("Mass picture");
  picture->setFocus();
  for (const Qt::Key key : {Qt::Key_Right, Qt::Key_Down, Qt::Key_Left, Qt::Key_Right, Qt::Key_Return}) press(key);
  return true;
}

// Of the whole notebook. It says nothing of its end but that another can be taken.
bool WindowDay::take_copy() {
  if (!part_of_set_up("Copies")) return false;
  press_button(window_, "Look at the copies…");
  press_button(window_, "Take a copy now");
  return wait_for_button(window_, "Take a copy now") || not_in_sight("the end of a copy");
}

// ---- the lab's own books

bool WindowDay::tables() {
  if (!part_of_set_up("People") || !enter_new("Initials", words("P"), "person.initials")) return false;
  if (!part_of_set_up("Clients") || !enter_new("Client", words("Creek"), "client.name")) return false;
  if (!part_of_set_up("Balances") || !enter_new("Balance", words("scale"), "balance.name")) return false;
  if (!part_of_set_up("Storage places") || !enter_new("Place", words("shelf"), "place.name")) return false;
  if (!part_of_set_up("Sieves") || !enter_new("Number or opening", figure("4") + " mm", "sieve")) return false;
  const QString stack = QStringLiteral("%1, %2 µm").arg(400 + standing_.texts % 100).arg(200 + standing_.texts % 100);
  if (!enter_new("Sieves of the stack", stack, "sieve_stack")) return false;
  if (!part_of_set_up("Furnace") || !enter_new("Lot", words("litharge"), "lot.name")) return false;
  if (!enter_new("Pot", words("pot"), "pot.name") || !enter_new("Recipe", words("quartz"), "recipe.name")) return false;
  if (!part_of_set_up("Check weights")) return false;
  fill("New check weight", words("weight"));
  fill("Its mass", "20");
  return enter("Deviation let pass", figure("0.0"), "check_weight");
}

bool WindowDay::machines() {
  const QString name = words("crusher");
  if (!part_of_set_up("Machines") || !enter_new("Machine", name, "machine.name")) return false;
  press(Qt::Key_2, Qt::ControlModifier);
  fill("Queue of the machine", name);
  unfold(window_, "The machine and its cleaning");
  pick("Cleaned by", 'b');
  if (!push("Log the cleaning", {{"cleaning", ""}})) return false;
  if (!push("Clean as last time", {{"cleaning", ""}})) return false;
  unfold(window_, "Crushing order");
  if (!push("Take this order as the queue", {{"crushing_plan", ""}, {"plan_place", ""}})) return false;
  return push("Retire the machine", {});
}

bool WindowDay::composite() {
  const QString one = standing_.sample, mark = words("Both adits");
  if (!bring_in()) return false;
  prepared_();
  press(Qt::Key_2, Qt::ControlModifier);
  unfold(window_, "Make a composite");
  fill("Mark of the composite", mark);
  fill("Sample 1", one);
  fill("Sample 2", standing_.sample);
  testing_support::enter_in(window_, "Mass taken", "100");
  testing_support::enter_in(window_, "Mass taken", "120", 1);
  return push("Make the composite", {{"sample.mark", mark.toStdString()}, {"step", ""}, {"step_share", ""}, {"step_share", ""}});
}

bool WindowDay::trays() {
  if (!go_to_sheet(standing_.sample) || !cut('f', figure("30"))) return false;
  if (!push("Put it in a crucible", {{"charge", ""}, {"bead", ""}})) return false;
  prepared_();
  press(Qt::Key_4, Qt::ControlModifier);
  if (!push("Lay out a tray", {{"tray", ""}})) return false;
  if (!enter("Name of the tray", words("tray"), "tray.name")) return false;
  if (!enter("Stands there", standing_.portion, "tray_place")) return false;
  if (!push("On to moulds", {{"tray", ""}, {"tray_place", ""}})) return false;
  return push("Put away", {});
}

bool WindowDay::part_of_set_up(const QString& name) {
  window_.findChildren<ui::WayStep*>().last()->click();
  settle();
  return take_row(window_, "Parts of the set-up", name) || not_in_sight(name);
}

}  // namespace prillbook::testing_support
