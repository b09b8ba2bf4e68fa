// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/sentences.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QRegularExpression>

namespace prillbook::ui {
namespace {

struct Sentences {
  Q_DECLARE_TR_FUNCTIONS(Sentences)

 public:
  static QString argument(const Error& error, std::size_t index) {
    return index < error.arguments.size() ? to_qt(error.arguments[index]) : QString();
  }

  // `plain` where the error brings no argument, else `naming` with the argument in it.
  static QString either(const Error& error, const QString& naming, const QString& plain) {
    const QString what = argument(error, 0);
    return what.isEmpty() ? plain : naming.arg(what);
  }

  static QString pair(const Error& error, const QString& naming, const QString& plain) {
    return error.arguments.size() < 2 ? plain : naming.arg(argument(error, 0), argument(error, 1));
  }

  // What goes wrong at a tray or with a cup on the balance; empty for another error.
  static QString of_tray(const Error& error) {
    const auto is = [&](ErrorCode code, const char* field) { return error.code == code && error.field == field; };
    if (is(ErrorCode::out_of_range, "tray_place.position"))
      return pair(error, tr("There is no position %1: the tray has 1 to %2."), tr("The tray has no such position."));
    if (is(ErrorCode::conflict, "tray_place.position"))
      return error.arguments.size() > 1
                 ? tr("It stands on position %2 of %1 already.").arg(argument(error, 0), argument(error, 1))
                 : either(error, tr("Something stands on position %1 already."), tr("Something stands there."));
    if (is(ErrorCode::not_found, "tray_place.position"))
      return either(error, tr("Nothing stands on position %1."), tr("Nothing stands there."));
    if (is(ErrorCode::not_found, "tray_place.thing"))
      return either(error, tr("There is no %1 here. A control begins with a letter: “blank”."), tr("There is no such portion."));
    if (is(ErrorCode::missing_key, "tray_place.thing"))
      return either(error, tr("%1 is in no crucible yet: begin its charge first."), tr("It is in no crucible yet."));
    if (is(ErrorCode::ambiguous, "tray_place.thing"))
      return either(error, tr("%1 has several charges: write the portion too, %1/2."), tr("The sample has several charges."));
    if (is(ErrorCode::conflict, "tray.columns"))
      return either(error, tr("Something stands on position %1, which would be gone."), tr("There is no room for it."));
    if (is(ErrorCode::conflict, "tray.kind")) return tr("Something stands on it: carry it on to another tray instead.");
    if (is(ErrorCode::conflict, "tray.put_away_at")) return tr("The tray is put away: take it into use again first.");
    if (is(ErrorCode::conflict, "tray.run_id")) return tr("This tray does not go through that run.");
    if (is(ErrorCode::inconsistent, "weighing.tare"))
      return pair(error, tr("The empty cup, %1, weighs as much as the full one, %2."),
                  tr("The empty cup weighs as much as the full one."));
    return {};
  }

  static QString of(const Error& error) {
    if (const QString words = of_tray(error); !words.isEmpty()) return words;
    switch (error.code) {
      case ErrorCode::unknown_key: return either(error, tr("“%1” is not known here."), tr("A name is not known here."));
      case ErrorCode::missing_key: return tr("Something is needed here.");
      case ErrorCode::wrong_type:
        return either(error, tr("“%1” is of another kind than belongs here."), tr("This is of another kind than belongs here."));
      case ErrorCode::not_finite:
        return either(error, tr("“%1” is too large or too small a number to keep."),
                      tr("The number is too large or too small to keep."));
      case ErrorCode::out_of_range:
        if (error.field == "sample.tests_wanted")
          return pair(error, tr("“%1” is not one of: %2."), tr("This is none of the tests."));
        return either(error, tr("“%1” lies outside what is possible here."), tr("This lies outside what is possible here."));
      case ErrorCode::conflict:
        if (error.field == "sieve.name") return either(error, tr("%1 stands twice."), tr("One opening stands twice."));
        return tr("This does not go together with what the notebook holds.");
      case ErrorCode::inconsistent:
        if (error.field == "weighing.mass")
          return pair(error, tr("%1 can’t be: what it came from weighs %2."), tr("It can’t weigh more than what it came from."));
        if (error.field == "sieve_cut.retained")
          return pair(error, tr("%1 can’t lie there: %2 was sieved."), tr("It can’t weigh more than what was sieved."));
        if (error.field == "charge.duplicate_of_id" || error.field == "pan_test.duplicate_of_id")
          return tr("A field duplicate is of another sample, a coarse or pulp duplicate of the same one; none is its own.");
        return tr("This contradicts another entry.");
      case ErrorCode::too_small: return tr("There is too little here to work it out.");
      case ErrorCode::malformed_json: return tr("The file is no readable JSON text.");
      case ErrorCode::unknown_verb:
        return either(error, tr("“%1” is not something this program does."), tr("That is not something this program does."));
      case ErrorCode::not_a_notebook: return tr("This file is not a lab notebook.");
      case ErrorCode::newer_version: return tr("A newer version of the program wrote this notebook; here it can only be read.");
      case ErrorCode::locked: return tr("Somebody else has the notebook open for writing.");
      case ErrorCode::read_only: return tr("The notebook can be read but not written.");
      case ErrorCode::disk_full:
        if (error.field == "commit_done")
          return tr("It is written, but the disk reported a fault: a power cut now could take it away. Look at the disk first.");
        return tr("The disk is full, or writing to it failed; nothing was written.");
      case ErrorCode::damaged: return tr("The notebook is damaged at this place; check it before you go on.");
      case ErrorCode::not_found: return either(error, tr("“%1” was not found."), tr("It was not found."));
      case ErrorCode::ambiguous:
        if (error.field == "sieve.series")
          return pair(error, tr("Mesh %1 of which series? It is %2. Write the series behind it, or the opening in µm."),
                      tr("A mesh number needs its series."));
        return either(error, tr("“%1” can mean more than one thing."), tr("This can mean more than one thing."));
      case ErrorCode::not_a_number: return either(error, tr("“%1” is not a number."), tr("A number is needed here."));
      case ErrorCode::unknown_unit:
        return either(error, tr("“%1” is no unit for this figure."), tr("The unit does not belong to this figure."));
      case ErrorCode::ambiguous_mark:
        return pair(error, tr("This can be read as %1 or as %2."), tr("The decimal mark can be read in two ways."));
      case ErrorCode::overdrawn:
        return pair(error, tr("In all %1 is more than there was: %2."), tr("This is more than is left."));
      case ErrorCode::already_exists: return either(error, tr("“%1” is taken already."), tr("This is taken already."));
      case ErrorCode::changed_since: return tr("A later entry stands in the way; take that one back first.");
      case ErrorCode::cancelled: return tr("Stopped before the end; nothing was kept.");
    }
    return tr("Something went wrong that has no name.");  // a code from outside the list
  }

  static QString of_file(const Error& error, const QString& path) {
    switch (error.code) {
      case ErrorCode::disk_full:
        if (error.field == "commit_done") return of(error);
        return tr("The disk is full, or writing to it failed: %1 was not written; an older file of that name is as it was.")
            .arg(path);
      case ErrorCode::read_only: return tr("%1 can’t be written: the folder or the file is closed to you.").arg(path);
      case ErrorCode::not_found: return tr("There is no folder for %1.").arg(path);
      case ErrorCode::cancelled: return tr("Stopped: %1 was not written; an older file of that name is as it was.").arg(path);
      default: return of(error);
    }
  }
};

}  // namespace

QString sentence(const Error& error) { return Sentences::of(error); }
QString file_sentence(const Error& error, const QString& path) { return Sentences::of_file(error, path); }

QString unbroken(const QString& sentence) {
  static const QRegularExpression between(
      QStringLiteral("(?<=[0-9]) (?=± |(?:mg|kg|g/t|g|µm|mm|t|%|‰)(?![\\w/]))|(?<=±) (?=[0-9])"));
  return QString(sentence).replace(between, QString(QChar::Nbsp));
}

}  // namespace prillbook::ui
