// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/photographs/photograph_strip.h"

#include <QtCore/QFile>
#include <QtCore/QFileInfo>
#include <QtCore/QMimeData>
#include <QtGui/QClipboard>
#include <QtGui/QDropEvent>
#include <QtGui/QGuiApplication>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/photographs/preparer.h"
#include "ui/photographs/thumbnails.h"

namespace prillbook::ui {
namespace {

namespace attachment_fields = history::fields::attachment;

constexpr int large_width = 52 * rhythm, large_height = 40 * rhythm;

std::optional<Instant> instant_of(const QDateTime& time) {
  if (!time.isValid()) return std::nullopt;
  return Instant{time.toMSecsSinceEpoch(), time.offsetFromUtc() / 60};
}

QString size_words(std::int64_t bytes) {
  return bytes >= 1'000'000 ? PhotographStrip::tr("%1 MB").arg(QString::number(double(bytes) / 1e6, 'f', 1))
                            : PhotographStrip::tr("%1 kB").arg((bytes + 999) / 1000);
}

// A picture of one row: 4:3, cut to its middle.
QIcon thumbnail_icon(const QImage& small, qreal ratio) {
  const QSize box = QSize(Thumbnails::side * 4 / 3, Thumbnails::side) * ratio;
  if (small.isNull()) {
    QPixmap empty(box);
    empty.fill(inks().shaded);
    empty.setDevicePixelRatio(ratio);
    return empty;
  }
  const QImage filled = small.scaled(box, Qt::KeepAspectRatioByExpanding, Qt::SmoothTransformation);
  QPixmap pixmap = QPixmap::fromImage(
      filled.copy(QRect(QPoint((filled.width() - box.width()) / 2, (filled.height() - box.height()) / 2), box)));
  pixmap.setDevicePixelRatio(ratio);
  return pixmap;
}

}  // namespace

PhotographStrip::PhotographStrip(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      thumbnails_(std::make_unique<Thumbnails>(session.connection)),
      add_(new PressButton(tr("Add a photograph…"))),
      hint_(new QLabel(tr("or drop it here, or paste it"))),
      row_(new QListWidget),
      news_(new MessageBar) {
  setAcceptDrops(!session.read_only());
  hint_->setFont(face(TextSize::small));
  hint_->setProperty("tone", "quiet");
  row_->setAccessibleName(tr("Photographs"));
  row_->setViewMode(QListView::IconMode);
  row_->setFlow(QListView::LeftToRight);
  row_->setWrapping(false);
  row_->setMovement(QListView::Static);
  row_->setFrameShape(QFrame::NoFrame);
  row_->setIconSize({Thumbnails::side * 4 / 3, Thumbnails::side});
  row_->setGridSize({Thumbnails::side * 4 / 3 + rhythm, Thumbnails::side + 3 * rhythm});
  row_->setTextElideMode(Qt::ElideRight);
  row_->setFont(face(TextSize::small));
  row_->setFixedHeight(Thumbnails::side + 5 * rhythm);
  row_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  row_->setAcceptDrops(false);  // the strip takes them
  row_->installEventFilter(this);
  add_->installEventFilter(this);
  auto* top = new QHBoxLayout;
  top->setSpacing(2 * rhythm);
  top->addWidget(add_);
  top->addWidget(hint_, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(row_);
  column->addLayout(top);
  column->addWidget(news_);
  column->addWidget(build_large());
  news_->hide();
  connect(add_, &QPushButton::clicked, this, &PhotographStrip::choose_file);
  connect(row_, &QListWidget::itemClicked, this, &PhotographStrip::open_large);
  connect(row_, &QListWidget::currentRowChanged, this, [this] {
    if (is_large()) show_large();
  });
  for (QWidget* widget : {static_cast<QWidget*>(add_), static_cast<QWidget*>(hint_)}) widget->setVisible(!session.read_only());
  refresh();
}

PhotographStrip::~PhotographStrip() = default;

QWidget* PhotographStrip::build_large() {
  large_ = new QWidget;
  picture_ = new QLabel;
  picture_->setAccessibleName(tr("The photograph"));
  facts_ = new QLabel;
  facts_->setFont(face(TextSize::small));
  facts_->setProperty("tone", "quiet");
  facts_->setWordWrap(true);
  facts_->setTextFormat(Qt::PlainText);
  fields_ = new RecordFields(session_, history::Entity::attachment, this);
  auto* form = new Form(2);
  form->row({fields_->text(tr("Caption"), attachment_fields::caption)});
  form->row({fields_->choice(tr("What it shows"), attachment_fields::kind)});
  form->row({fields_->time(tr("Taken"), attachment_fields::taken_at)});
  strike_ = new PressButton(tr("Strike it out…"));
  strike_->setVisible(!session_.read_only());
  reason_ = new ReasonLine;
  connect(strike_, &QPushButton::clicked, this, &PhotographStrip::strike);
  connect(reason_, &ReasonLine::given, this, &PhotographStrip::refresh);
  connect(reason_, &ReasonLine::closed, this, [this] { strike_->setFocus(Qt::OtherFocusReason); });
  auto* column = new QVBoxLayout(large_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(picture_);
  column->addWidget(facts_);
  column->addWidget(form);
  column->addWidget(strike_, 0, Qt::AlignLeft);
  column->addWidget(reason_);
  large_->hide();
  return large_;
}

int PhotographStrip::count() const { return row_->count(); }
QString PhotographStrip::news() const { return news_->isHidden() ? QString() : news_->words(); }
bool PhotographStrip::is_large() const { return !large_->isHidden(); }

AttachmentId PhotographStrip::in_hand() const {
  const int at = row_->currentRow();
  return at >= 0 && std::size_t(at) < all_.size() ? all_[std::size_t(at)].id : AttachmentId{};
}

void PhotographStrip::show_owner(const attachments::Owner& owner) {
  if (owner == owner_) return refresh();
  fields_->show(0);
  owner_ = owner;
  news_->hide();
  large_->hide();
  refresh();
}

void PhotographStrip::refresh() {
  auto standing = owner_.sample || owner_.consignment
                      ? attachments::attachments_of(session_.connection, owner_)
                      : Result<std::vector<attachments::Attachment>>(std::vector<attachments::Attachment>{});
  const AttachmentId kept = in_hand();
  all_ = standing.ok() ? *std::move(standing) : std::vector<attachments::Attachment>{};
  const QSignalBlocker silent(row_);
  row_->clear();
  for (const attachments::Attachment& one : all_) {
    const QString words = to_qt(one.caption.value_or(one.original_name.value_or("")));
    auto* item = new QListWidgetItem(thumbnail_icon(thumbnails_->of(one), devicePixelRatioF()), words, row_);
    item->setToolTip(words);
    item->setData(Qt::AccessibleTextRole, words.isEmpty() ? tr("photograph without a caption") : words);
    if (one.id == kept) row_->setCurrentItem(item);
  }
  if (row_->currentRow() < 0 && !all_.empty()) row_->setCurrentRow(0);
  row_->setVisible(!all_.empty());
  if (is_large() && in_hand() != AttachmentId{fields_->record()}) close_large();
  if (is_large()) show_large();
  emit shape_changed();
}

void PhotographStrip::choose_file() {
  session_.prompter.choose_file(
      {FilePurpose::open, tr("Add a photograph"), tr("Pictures (*.jpg *.jpeg *.png *.webp *.bmp *.tif *.tiff)"), {}},
      [this](const QString& path) { add_file(path); });
}

void PhotographStrip::add_file(const QString& path) {
  const QFileInfo info(path);
  const QString name = info.fileName();
  if (info.size() > attachments::most_file_bytes)
    return tell({ErrorCode::out_of_range,
                 "attachment",
                 "",
                 {to_core(size_words(info.size())), to_core(size_words(attachments::most_file_bytes))}},
                name);
  QFile file(path);
  if (!info.isFile() || !file.open(QIODevice::ReadOnly))
    return tell({ErrorCode::not_found, "attachment", "", {to_core(name)}}, name);
  const QByteArray bytes = file.readAll();
  const auto wish = attachments::wish(session_.connection);
  if (!wish.ok()) return tell(wish.error(), name);
  add(PicturePreparer().prepare({bytes.constData(), std::size_t(bytes.size())}, *wish), name, instant_of(info.lastModified()));
}

void PhotographStrip::add_from(const QMimeData& mime) {
  bool any = false;
  for (const QUrl& url : mime.urls())
    if (url.isLocalFile()) {
      add_file(url.toLocalFile());
      any = true;
    }
  if (any) return;
  const auto wish = attachments::wish(session_.connection);
  if (!wish.ok()) return tell(wish.error(), {});
  if (!mime.hasImage()) return tell({ErrorCode::wrong_type, "attachment", "", {}}, {});
  add(prepare_picture(qvariant_cast<QImage>(mime.imageData()), *wish), {}, session_.journal.clock().now());
}

void PhotographStrip::add(const Result<attachments::Prepared>& prepared, const QString& name,
                          const std::optional<Instant>& taken_at) {
  if (session_.read_only()) return;
  if (!prepared.ok()) return tell(prepared.error(), name);
  attachments::NewAttachment fresh{owner_, *prepared, {}, {}, {}, taken_at};
  if (!name.isEmpty()) fresh.original_name = to_core(name);
  const auto made = attachments::attach(session_.journal, fresh);
  if (!made.ok()) return tell(made.error(), name);
  news_->hide();
  refresh();
  for (std::size_t i = 0; i < all_.size(); ++i)
    if (all_[i].id == *made) row_->setCurrentRow(int(i));
}

void PhotographStrip::tell(const Error& error, const QString& name) {
  const QString what = name.isEmpty() ? tr("The picture") : name;
  const auto argument = [&](std::size_t i) { return i < error.arguments.size() ? to_qt(error.arguments[i]) : QString(); };
  QString words;
  switch (error.code) {
    case ErrorCode::out_of_range:
      words = tr("%1 was not taken: %2 is more than the limit of %3.").arg(what, argument(0), argument(1));
      break;
    case ErrorCode::damaged: words = tr("%1 was not taken: it is cut short or broken.").arg(what); break;
    case ErrorCode::wrong_type: words = tr("%1 was not taken: it holds no picture.").arg(what); break;
    case ErrorCode::not_found: words = tr("%1 can’t be read.").arg(what); break;
    case ErrorCode::already_exists: words = tr("%1 is here already.").arg(what); break;
    default: words = sentence(error);
  }
  news_->stop(words);
  news_->show();
  bring_into_view(news_);
  emit shape_changed();
}

void PhotographStrip::open_large() {
  if (!in_hand()) return;
  large_->show();
  show_large();
  emit shape_changed();
  bring_into_view(picture_);
}

void PhotographStrip::close_large() {
  fields_->show(0);
  large_->hide();
  emit shape_changed();
  row_->setFocus(Qt::OtherFocusReason);
}

void PhotographStrip::show_large() {
  const int at = row_->currentRow();
  if (at < 0 || std::size_t(at) >= all_.size()) return;
  const attachments::Attachment& one = all_[std::size_t(at)];
  const auto bytes = attachments::bytes_of(session_.connection, one);
  const qreal ratio = devicePixelRatioF();
  const QSize room(std::min(large_width, std::max(20 * rhythm, width())), large_height);
  QImage picture = bytes.ok() ? decoded(*bytes, room * ratio) : QImage();
  picture.setDevicePixelRatio(ratio);
  picture.isNull() ? picture_->setText(sentence(bytes.ok() ? Error{ErrorCode::damaged, "attachment", "", {}} : bytes.error()))
                   : picture_->setPixmap(QPixmap::fromImage(picture));
  QString words = tr("%1 × %2 pixels, %3").arg(one.width).arg(one.height).arg(size_words(one.byte_count));
  if (one.original_name) words += tr(", from %1").arg(in_short(to_qt(*one.original_name)));
  if (one.original) words += tr(", kept as it came: it may hold the place where it was taken");
  facts_->setText(words);
  if (fields_->record() != one.id.value) reason_->close();
  fields_->show(one.id.value);
}

void PhotographStrip::strike() {
  const AttachmentId id = in_hand();
  reason_->ask(tr("Struck out, because"),
               [this, id](const QString& why) { return attachments::strike(session_.journal, id, to_core(why)); });
}

void PhotographStrip::dragEnterEvent(QDragEnterEvent* event) {
  if (!session_.read_only() && (event->mimeData()->hasUrls() || event->mimeData()->hasImage())) event->acceptProposedAction();
}

void PhotographStrip::dropEvent(QDropEvent* event) {
  add_from(*event->mimeData());
  event->acceptProposedAction();
}

bool PhotographStrip::eventFilter(QObject* watched, QEvent* event) {
  // Escape closes the large picture before it leaves the page.
  if (event->type() == QEvent::ShortcutOverride && watched == row_ && is_large() &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();
    return true;
  }
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  auto* key = static_cast<QKeyEvent*>(event);
  if (key->matches(QKeySequence::Paste) && !session_.read_only()) {
    if (const QMimeData* pasted = QGuiApplication::clipboard()->mimeData()) add_from(*pasted);
    return true;
  }
  if (watched != row_) return false;
  if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
    is_large() ? close_large() : open_large();
    return true;
  }
  if (key->key() == Qt::Key_Escape && is_large()) {
    close_large();
    return true;
  }
  return false;
}

}  // namespace prillbook::ui
