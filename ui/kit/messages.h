// SPDX-License-Identifier: GPL-3.0-or-later
// Quiet lines: news, findings, cautions. A mark and a word always stand together.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>

#include "core/base/result.h"

class QLabel;
class QToolButton;

namespace prillbook::ui {

enum class Severity { note, caution, stop };

QString severity_word(Severity severity);
// Our marks: a note is a dot, a caution an open pennant, a stop a filled one. Drawn into a square.
void draw_mark(QPainter& painter, const QRectF& square, Severity severity);

// One finding: mark, word, sentence, and at most one thing to do about it.
class FindingRow : public QWidget {
  Q_OBJECT
 public:
  FindingRow(Severity severity, const QString& sentence, const QString& action = {}, QWidget* parent = nullptr);

 signals:
  void action_wanted();

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Severity severity_;
  QLabel* words_;
};

// One quiet line of news at the foot of a station or window; the newest stays until the next.
class MessageBar : public QWidget {
  Q_OBJECT
 public:
  explicit MessageBar(QWidget* parent = nullptr);
  void say(const QString& words);      // neutral
  void written(const QString& words);  // with the mark for "safe in the notebook"
  void refused(const Error& error);    // the sentence, with the stop mark
  void stop(const QString& words);     // the same, where the place has a better sentence
  QString words() const;

 private:
  void put(const QString& words, int kind);
  void changeEvent(QEvent* event) override;

  QLabel* mark_;
  QLabel* words_;
  int kind_ = 0;
};

// The cautions that matter at one place, always in sight; it has no way to be closed. "more…" opens the page with the
// figures and their sources.
class CautionLine : public QWidget {
  Q_OBJECT
 public:
  CautionLine(const QString& words, const QString& guide_page, QWidget* parent = nullptr);
  const QString& guide_page() const { return page_; }

 signals:
  void more_wanted(const QString& guide_page);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString page_;
};

}  // namespace prillbook::ui
