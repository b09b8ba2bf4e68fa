// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/describe.h"

#include <QtCore/QCoreApplication>
#include <algorithm>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/intake/sample_list.h"
#include "core/readings/entry.h"
#include "core/versions/names.h"
#include "core/weighing/bead.h"
#include "ui/kit/figures.h"

namespace prillbook::program {
namespace {

namespace fields = history::fields;
using history::Change;
using history::Entity;
using history::Record;

QString tr(const char* words) { return QCoreApplication::translate("prillbook::program", words); }

QString of(const std::string& text) { return QString::fromStdString(text); }

QString known_as(store::Connection& connection, const Record& record);

QString name_behind(store::Connection& connection, const Record& record, const history::Field& reference) {
  const auto found = history::load_record(connection, *reference.refers, record.whole(reference));
  return found ? known_as(connection, *found) : QString();
}

// Of what belongs to a sample or to a whole consignment.
QString owner_name(store::Connection& connection, const Record& record, const history::Field& sample,
                   const history::Field& consignment) {
  return name_behind(connection, record, record.whole(sample) ? sample : consignment);
}

// The number by which people know the record; empty where it has none.
QString known_as(store::Connection& connection, const Record& record) {
  switch (record.entity()) {
    case Entity::sample: return of(record.text(fields::sample::number));
    case Entity::consignment: return of(record.text(fields::consignment::number));
    case Entity::client: return of(record.text(fields::client::name));
    case Entity::person: return of(record.text(fields::person::initials));
    case Entity::balance: return of(record.text(fields::balance::name));
    case Entity::machine: return of(record.text(fields::machine::name));
    case Entity::tray: return tr("tray %1").arg(of(record.text(fields::tray::name)));
    case Entity::check_weight: return of(record.text(fields::check_weight::name));
    case Entity::lot: return of(record.text(fields::lot::name));
    case Entity::pot: return tr("pot %1").arg(of(record.text(fields::pot::name)));
    case Entity::recipe: return of(record.text(fields::recipe::name));
    case Entity::furnace_run: return of(record.text(fields::furnace_run::name));
    case Entity::summary: return of(record.text(fields::summary::number));
    case Entity::step:
    case Entity::cleaning:
    case Entity::crushing_plan: {
      const bool step = record.entity() == Entity::step;
      const auto& reference = step                                  ? fields::step::sample
                              : record.entity() == Entity::cleaning ? fields::cleaning::machine
                                                                    : fields::crushing_plan::machine;
      const auto of_what = history::load_record(connection, step ? Entity::sample : Entity::machine, record.whole(reference));
      return of_what ? known_as(connection, *of_what) : QString();
    }
    case Entity::sieve: return tr("sieve %1").arg(of(record.text(fields::sieve::name)));
    case Entity::sieve_stack: return tr("stack %1").arg(of(record.text(fields::sieve_stack::name)));
    case Entity::sieve_cut: {
      const auto analysis = history::load_record(connection, Entity::sieve_analysis, record.whole(fields::sieve_cut::analysis));
      const QString name = of(record.text(fields::sieve_cut::name));
      return tr("%1 sieve %2").arg(analysis ? known_as(connection, *analysis) : QString(), name.isEmpty() ? tr("pan") : name);
    }
    case Entity::sieve_analysis: {
      const auto portion = history::load_record(connection, Entity::portion, record.whole(fields::sieve_analysis::portion));
      return portion ? known_as(connection, *portion) : QString();
    }
    case Entity::milling_lot: return name_behind(connection, record, fields::milling_lot::sample);
    case Entity::control_material: return of(record.text(fields::control_material::name));
    case Entity::run_decision: {
      const auto run = history::load_record(connection, Entity::furnace_run, record.whole(fields::run_decision::run));
      return run ? QStringLiteral("%1 %2").arg(of(run->text(fields::furnace_run::name)),
                                               of(record.text(fields::run_decision::decision)))
                 : QString();
    }
    case Entity::panning: {
      const auto test = history::load_record(connection, Entity::pan_test, record.whole(fields::panning::pan_test));
      return test ? known_as(connection, *test) : QString();
    }
    case Entity::metallics: {
      const auto portion = history::load_record(connection, Entity::portion, record.whole(fields::metallics::portion));
      return portion ? known_as(connection, *portion) : QString();
    }
    case Entity::portion: {
      const auto sample = history::load_record(connection, Entity::sample, record.whole(fields::portion::sample));
      return sample ? QStringLiteral("%1/%2")
                          .arg(of(sample->text(fields::sample::number)))
                          .arg(record.whole(fields::portion::number))
                    : QString();
    }
    case Entity::pan_test:
    case Entity::charge: {
      const auto& reference = record.entity() == Entity::pan_test ? fields::pan_test::portion : fields::charge::portion;
      const auto portion = history::load_record(connection, Entity::portion, record.whole(reference));
      return portion ? known_as(connection, *portion) : QString();
    }
    case Entity::attachment: return owner_name(connection, record, fields::attachment::sample, fields::attachment::consignment);
    case Entity::hand_over: return owner_name(connection, record, fields::hand_over::sample, fields::hand_over::consignment);
    case Entity::own_metal: return name_behind(connection, record, fields::own_metal::sample);
    case Entity::told_figure: return name_behind(connection, record, fields::told_figure::sample);
    case Entity::place: return of(record.text(fields::place::name));
    case Entity::piece:
      return tr("%1 piece %2")
          .arg(name_behind(connection, record, fields::piece::consignment))
          .arg(record.whole(fields::piece::number));
    default: return {};
  }
}

QString bead_words(store::Connection& connection, BeadId id) {
  const auto origin = weighing::origin(connection, id);
  if (!origin) return tr("bead");
  const QString number = QStringLiteral("%1/%2").arg(of(origin->sample_number)).arg(origin->portion_number);
  return origin->from_pan ? tr("%1 pan bead").arg(number) : tr("%1 fire bead").arg(number);
}

// A cell as a person typed or reads it.
QString cell_words(const history::Field& field, const Record& record) {
  if (field.kind == history::FieldKind::reading) {
    const auto figure = readings::figure_of(record, field);
    return figure && *figure ? ui::text(ui::as_typed(*figure)) : tr("nothing");
  }
  if (field.kind == history::FieldKind::flag) return record.whole(field) ? tr("yes") : tr("no");
  if (const auto number = record.optional_whole(field)) return QString::number(*number);
  const QString text = of(record.text(field));
  return text.isEmpty() ? tr("nothing") : text;
}

QString weighing_words(store::Connection& connection, const Record& record) {
  const BeadId bead = record.reference<BeadId>(fields::weighing::bead);
  const QString words = bead_words(connection, bead);
  const bool gold = record.text(fields::weighing::what) == weighing::of_gold;
  return tr("%1 for %2").arg(cell_words(fields::weighing::mass, record), gold ? tr("gold of %1").arg(words) : words);
}

QString change_words(store::Connection& connection, const Change& change, const QString& gesture) {
  const auto record = history::load_record(connection, change.entity, change.record);
  if (!record) return gesture;
  if (change.entity == Entity::weighing && !record->struck()) return weighing_words(connection, *record);
  const QString name =
      change.entity == Entity::bead ? bead_words(connection, BeadId{change.record}) : known_as(connection, *record);
  const QString before = name.isEmpty() ? QString() : tr("%1: ").arg(name);
  const history::Field* field = history::find_field(history::spec_of(change.entity), change.field);
  if (!field || field->code == history::struck_code) return before + gesture;
  const QString what = QString::fromStdString(versions::field_name(*field));
  if (field->kind == history::FieldKind::instant) return before + what;
  if (field->kind != history::FieldKind::reference) return before + tr("%1 %2").arg(what, cell_words(*field, *record)).trimmed();
  const auto referred = record->optional_whole(*field);
  return before +
         tr("%1 %2")
             .arg(what, referred ? QString::fromStdString(versions::cell_text(connection, *field, *referred)) : QString())
             .trimmed();
}

}  // namespace

QString describe(store::Connection& connection, const history::Written& written) {
  const QString gesture = QString::fromStdString(written.gesture);
  if (written.changes.empty()) return gesture;
  if (written.gesture == intake::list_gesture) {
    const auto made = std::count_if(written.changes.begin(), written.changes.end(),
                                    [](const Change& change) { return change.entity == Entity::sample && change.field == 0; });
    return tr("%1 samples from a list").arg(made);
  }
  return change_words(connection, written.changes.front(), gesture);
}

}  // namespace prillbook::program
