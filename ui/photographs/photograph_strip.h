// SPDX-License-Identifier: GPL-3.0-or-later
// The photographs of a sample or of a consignment: small ones in a row, the one in hand large beneath, with its caption.
// They come by a file, by dropping or by pasting.
#pragma once

#include <QtWidgets/QWidget>
#include <memory>

#include "core/attachments/attachments.h"
#include "ui/kit/session.h"

class QLabel;
class QListWidget;
class QMimeData;

namespace prillbook::ui {

class MessageBar;
class PressButton;
class ReasonLine;
class RecordFields;
class Thumbnails;

class PhotographStrip : public QWidget {
  Q_OBJECT
 public:
  explicit PhotographStrip(Session& session, QWidget* parent = nullptr);
  ~PhotographStrip() override;

  void show_owner(const attachments::Owner& owner);
  void refresh();  // reads again what stands
  // Files, or a picture without one.
  void add_file(const QString& path);
  void add_from(const QMimeData& mime);
  void choose_file();

  int count() const;
  AttachmentId in_hand() const;
  bool is_large() const;
  void open_large();
  void close_large();
  QListWidget* row() const { return row_; }
  const Thumbnails& thumbnails() const { return *thumbnails_; }
  QString news() const;

 signals:
  void shape_changed();  // it needs more or less room

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QWidget* build_large();
  void add(const Result<attachments::Prepared>& prepared, const QString& name, const std::optional<Instant>& taken_at);
  void tell(const Error& error, const QString& name);
  void show_large();
  void strike();

  Session& session_;
  attachments::Owner owner_;
  std::vector<attachments::Attachment> all_;
  std::unique_ptr<Thumbnails> thumbnails_;
  PressButton* add_;
  QLabel* hint_;
  QListWidget* row_;
  MessageBar* news_;
  QWidget* large_;
  QLabel* picture_;
  QLabel* facts_;
  RecordFields* fields_;
  PressButton* strike_;
  ReasonLine* reason_;
};

}  // namespace prillbook::ui
