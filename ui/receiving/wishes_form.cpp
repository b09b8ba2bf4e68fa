// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/wishes_form.h"

#include <QtCore/QCoreApplication>

#include "core/custody/wanted.h"
#include "core/history/fields.h"
#include "core/portions/net_mass.h"
#include "ui/kit/form.h"

namespace prillbook::ui {
namespace {

namespace wished_fields = history::fields::sample;

struct Wishes {
  Q_DECLARE_TR_FUNCTIONS(Wishes)
};

// Gross and tare are one command: the other of the two stays as it is.
RecordFields::EnterFigure weigh_in(Session& session, bool is_gross) {
  return [&session, is_gross](RecordId id, const auto& mass, const auto& why) -> Result<void> {
    PRILLBOOK_ASSIGN(const custody::Sample held, custody::sample(session.connection, SampleId{id}));
    return portions::set_gross_and_tare(session.journal, SampleId{id}, is_gross ? mass : held.gross, is_gross ? held.tare : mass,
                                        why);
  };
}

}  // namespace

QWidget* wishes_form(Session& session, RecordFields& fields) {
  namespace f = wished_fields;
  auto* form = new Form(2);
  fields.write_by(f::gross, weigh_in(session, true));
  fields.write_by(f::tare, weigh_in(session, false));
  auto* gross = fields.figure(Wishes::tr("Gross, with the bag"), f::gross, "kg", false);
  gross->field()->set_hint(Wishes::tr("Gross less tare is the mass received, where none was weighed."));
  form->row({gross, fields.figure(Wishes::tr("Tare, the empty bag"), f::tare, "kg")});
  auto* tests = fields.text(Wishes::tr("Tests wanted"), f::tests_wanted);
  tests->set_hint(Wishes::tr("pan, fire, sieve, metallics, moisture"));
  fields.write_by(f::tests_wanted, [&session](RecordId id, const history::Value& value, const RecordFields::Why&) {
    const auto* words = std::get_if<std::string>(&value);
    return custody::set_tests_wanted(session.journal, SampleId{id}, words ? *words : std::string());
  });
  form->row({tests, fields.flag(Wishes::tr("Moisture"), Wishes::tr("the client wants it"), f::moisture_wanted)});
  form->row({fields.time(Wishes::tr("Due"), f::due), fields.text(Wishes::tr("Price agreed"), f::price_agreed)});
  form->row({fields.time(Wishes::tr("Rest kept until"), f::retain_until), fields.text(Wishes::tr("Price paid"), f::price_paid)});
  form->row({fields.text(Wishes::tr("Taken by"), f::taken_by), fields.text(Wishes::tr("Taken when"), f::taken_when)});
  auto* reason = fields.text(Wishes::tr("because"), f::treatment_reason);
  reason->set_hint(Wishes::tr("Arsenic, antimony or tellurium; cyanided tailings; mercury …"));
  form->row({fields.choice(Wishes::tr("Apart or refused"), f::treatment), reason});
  form->row({fields.choice(Wishes::tr("What was left is"), f::disposal), fields.time(Wishes::tr("since"), f::disposed_at)});
  return form;
}

}  // namespace prillbook::ui
