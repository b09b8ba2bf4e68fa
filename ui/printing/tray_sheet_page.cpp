// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/printing/tray_sheet_page.h"

#include <QtCore/QSettings>
#include <QtWidgets/QBoxLayout>

#include "core/fire/runs.h"
#include "core/trays/filling.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/paper/tray_sheet.h"

namespace prillbook::ui {
namespace {

constexpr const char* paper_of_trays = "tray_sheet/paper";

Result<paper::TraySheet> sheet_of(store::Connection& connection, TrayId id) {
  PRILLBOOK_ASSIGN(const trays::Tray held, trays::tray(connection, id));
  paper::TraySheet sheet{held.name, {},        held.made_at ? to_core(date_time_text(*held.made_at)) : std::string(),
                         held.kind, held.grid, {}};
  if (const auto run = fire::furnace_run(connection, held.run); held.run && run.ok()) sheet.run = run->name;
  for (const trays::Place& place : held.places) {
    PRILLBOOK_ASSIGN(const trays::Called name, trays::called(connection, place.thing));
    sheet.places.push_back({place.position, name.label, name.mark, to_core(text(as_typed(name.portion_mass)))});
  }
  return sheet;
}

}  // namespace

TraySheetPage::TraySheetPage(Session& session, Printing printing, QWidget* parent)
    : PrintPage(session, std::move(printing), parent),
      paper_(new ChoiceField(tr("Paper"), {{"a4", tr("A4")}, {"letter", tr("Letter")}})),
      which_(new PickField(tr("Tray"))) {
  choices()->addWidget(which_);
  choices()->addWidget(paper_);
  paper_->set_required(true);
  paper_->set_value(QSettings().value(paper_of_trays).toString() == QLatin1String("letter") ? "letter" : "a4");
  paper_->on_commit([this](const std::optional<std::string>& size) -> Result<void> {
    QSettings().setValue(paper_of_trays, QString::fromStdString(size.value_or("a4")));
    renew();
    return {};
  });
  which_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    if (id) show_tray(TrayId{*id});
    return {};
  });
  tab_on_from(paper_->editor());
}

bool TraySheetPage::show_tray(TrayId tray) {
  const auto held = trays::tray(session().connection, tray);
  if (!held.ok()) return false;
  tray_ = tray;
  name_ = to_qt(held->name);
  head()->set(tr("Tray sheet"), name_);
  std::vector<PickField::Item> items;
  if (const auto all = trays::trays_in_use(session().connection); all.ok())
    for (const trays::Tray& one : *all) items.push_back({one.id.value, to_qt(one.name)});
  which_->set_items(std::move(items));
  which_->set_value(tray.value);
  renew();
  return true;
}

void TraySheetPage::enter() { which_->line()->setFocus(Qt::OtherFocusReason); }

Result<paper::Pages> TraySheetPage::pages() const {
  PRILLBOOK_ASSIGN(const paper::TraySheet sheet, sheet_of(session().connection, tray_));
  return paper::tray_pages(sheet, paper_->value() == "letter" ? paper::PaperSize::letter : paper::PaperSize::a4);
}

QString TraySheetPage::file_name() const {
  return tr("Tray %1").arg(
      QString(name_).replace(QLatin1Char('/'), QLatin1Char('-')).replace(QLatin1Char(':'), QLatin1Char('.')));
}

}  // namespace prillbook::ui
