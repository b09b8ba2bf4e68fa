// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/import_page.h"

#include <QtCore/QFile>
#include <QtCore/QFileInfo>
#include <QtCore/QSignalBlocker>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QHeaderView>
#include <QtWidgets/QLabel>
#include <QtWidgets/QTableView>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/lab/lab.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/receiving/column_strip.h"
#include "ui/receiving/import_words.h"

namespace prillbook::ui {
namespace {

constexpr int row_height = 4 * rhythm, least_column = 21 * rhythm, widest_column = 40 * rhythm, rows_measured = 60;
constexpr std::size_t rows_at_once = 200;  // more than a screen shows
constexpr int one_frame_ms = 20;

// Enter corrects the cell in hand; Tab leaves the table.
class ListTable : public QTableView {
 public:
  explicit ListTable(QAbstractItemModel* model) {
    setModel(model);
    setTabKeyNavigation(false);
    setShowGrid(false);
    setWordWrap(false);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::EditKeyPressed | QAbstractItemView::DoubleClicked);
    setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(row_height);
    verticalHeader()->setDefaultAlignment(Qt::AlignRight | Qt::AlignVCenter);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setHighlightSections(false);
    verticalHeader()->setHighlightSections(false);
  }

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && state() != EditingState && currentIndex().isValid()) return edit(currentIndex());
    QTableView::keyPressEvent(event);
  }
};

}  // namespace

ImportPage::ImportPage(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), head_(new Headline), table_(new ListTable(&model_)), words_(new MessageBar) {
  strip_ = new ColumnStrip(table_);
  table_->setAccessibleName(tr("Rows of the list"));
  reading_ = build_reading();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(3 * rhythm, 2 * rhythm, 3 * rhythm, rhythm);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(reading_);
  column->addWidget(hairline());
  column->addWidget(strip_);
  column->addWidget(table_, 1);
  column->addWidget(words_);
  column->addWidget(build_foot());
  rest_.setSingleShot(true);
  rest_.setInterval(one_frame_ms);
  connect(&rest_, &QTimer::timeout, this, &ImportPage::read_rest);
  connect(&model_, &ImportModel::checked, this, &ImportPage::show_notes);
  connect(strip_, &ColumnStrip::chosen, this, [this](int place, const intake::ColumnUse& use) {
    model_.use_column(place, use);
    show_reading();
  });
  connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this, [this] { show_notes(); });
}

QComboBox* ImportPage::combo(const QString& label, QWidget* row) {
  auto* cell = new QVBoxLayout;
  cell->setSpacing(0);
  auto* words = new QLabel(label);
  words->setFont(face(TextSize::small));
  words->setProperty("tone", "quiet");
  auto* box = new QuietCombo;
  box->setMinimumWidth(22 * rhythm);
  box->setAccessibleName(label);
  words->setBuddy(box);
  cell->addWidget(words);
  cell->addWidget(box);
  static_cast<QHBoxLayout*>(row->layout())->addLayout(cell);
  return box;
}

QWidget* ImportPage::build_reading() {
  auto* row = new QWidget;
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(4 * rhythm);
  encoding_ = combo(tr("Letters read as"), row);
  for (const tables::Encoding one : tables::encodings) encoding_->addItem(encoding_words(one));
  delimiter_ = combo(tr("Cells end with"), row);
  for (const char one : tables::delimiters) delimiter_->addItem(delimiter_words(one));
  mark_ = combo(tr("Decimal mark"), row);
  mark_->setPlaceholderText(tr("comma or point?"));
  for (const DecimalMark one : {DecimalMark::point, DecimalMark::comma}) mark_->addItem(mark_words(one));
  heading_ = new QCheckBox(tr("The first row is a heading"));
  line->addWidget(heading_, 0, Qt::AlignBottom);
  line->addStretch();
  connect(encoding_, &QComboBox::activated, this, [this](int at) {
    read_again([at](intake::ListOptions& options) { options.encoding = tables::encodings[std::size_t(at)]; });
  });
  connect(delimiter_, &QComboBox::activated, this, [this](int at) {
    read_again([at](intake::ListOptions& options) { options.delimiter = tables::delimiters[std::size_t(at)]; });
  });
  connect(mark_, &QComboBox::activated, this, [this](int at) {
    model_.say_mark(at == 1 ? DecimalMark::comma : DecimalMark::point);
    show_reading();
  });
  connect(heading_, &QCheckBox::toggled, this, [this](bool heading) {
    if (showing_) return;
    model_.say_heading(heading);
    show_columns();
    show_reading();
  });
  return row;
}

QWidget* ImportPage::build_foot() {
  auto* foot = new QWidget;
  auto* row = new QHBoxLayout(foot);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(2 * rhythm);
  count_ = new QLabel;
  count_->setFont(face(TextSize::body, Weight::bold));
  count_->setTextFormat(Qt::PlainText);
  next_ = new PressButton(tr("Next to look at"));
  next_->setToolTip(tr("F3"));
  enter_ = new PressButton(tr("Enter the list"), PressButton::Rank::main);
  auto* back = new PressButton(tr("Back"));
  back->setToolTip(tr("Esc: nothing is entered"));
  connect(next_, &QPushButton::clicked, this, &ImportPage::next_refused);
  connect(enter_, &QPushButton::clicked, this, &ImportPage::enter_list);
  connect(back, &QPushButton::clicked, this, &ImportPage::left);
  row->addWidget(count_, 1);
  for (PressButton* button : {next_, back, enter_}) row->addWidget(button);
  return foot;
}

QString ImportPage::count_text() const { return count_->text(); }

void ImportPage::open_file(ConsignmentId consignment, const QString& path) {
  QFile file(path);
  const bool opened = file.open(QIODevice::ReadOnly);
  // One byte more than is read shows the reader that there is more.
  const QByteArray bytes = opened ? file.read(qint64(tables::largest_file) + 1) : QByteArray();
  open(consignment, bytes.toStdString(), QFileInfo(path).fileName(), {});
  if (!opened) words_->stop(tr("“%1” can’t be opened: %2").arg(QFileInfo(path).fileName(), file.errorString()));
}

void ImportPage::open_rows(ConsignmentId consignment, const QString& text) {
  intake::ListOptions options;
  options.encoding = tables::Encoding::utf8;
  open(consignment, text.toStdString(), tr("pasted rows"), options);
}

void ImportPage::open(ConsignmentId consignment, std::string bytes, const QString& name, const intake::ListOptions& options) {
  consignment_ = consignment;
  const auto held = custody::consignment(session_.connection, consignment);
  const auto client = held.ok() ? lab::client(session_.connection, held->client) : Result<lab::Client>(held.error());
  head_->set(held.ok() ? tr("A list for %1").arg(to_qt(held->number)) : tr("A list"),
             client.ok() ? in_short(to_qt(client->name)) + QStringLiteral(" · ") + in_short(name, 60) : name);
  auto context = intake::context_of(session_.connection, consignment);
  auto list = context.ok() ? intake::SampleList::read(std::move(bytes), std::move(context).value(), options, rows_at_once)
                           : Result<intake::SampleList>(context.error());
  model_.show_list(list.ok() ? std::optional(std::move(list).value()) : std::nullopt);
  if (!model_.list()) return show_refused(list.error());
  show_opened();
  if (!model_.list()->is_whole()) rest_.start();
}

void ImportPage::read_rest() {
  if (!model_.list() || model_.list()->is_whole()) return;
  if (const auto outcome = model_.read_rest(); !outcome) {
    model_.show_list(std::nullopt);
    return show_refused(outcome.error());
  }
  show_opened();
}

void ImportPage::show_refused(const Error& error) {
  for (QWidget* part : {reading_, static_cast<QWidget*>(strip_), static_cast<QWidget*>(table_)}) part->hide();
  words_->stop(list_sentence(error));
}

void ImportPage::show_opened() {
  for (QWidget* part : {reading_, static_cast<QWidget*>(strip_), static_cast<QWidget*>(table_)}) part->show();
  show_columns();
  show_reading();
  const QModelIndex first = model_.next_refused(0);
  table_->setCurrentIndex(first.isValid() ? first : model_.index(0, 0));
  table_->setFocus(Qt::OtherFocusReason);
}

void ImportPage::read_again(const std::function<void(intake::ListOptions&)>& change) {
  if (!model_.list()) return;
  intake::ListOptions options = model_.list()->options();
  change(options);
  const auto outcome = model_.read_as(options);
  show_columns();
  show_reading();
  if (!outcome) words_->stop(list_sentence(outcome.error()));
}

void ImportPage::show_reading() {
  const intake::SampleList* list = model_.list();
  if (!list) return;
  showing_ = true;
  const auto place = [](const auto& all, auto one) { return int(std::find(all.begin(), all.end(), one) - all.begin()); };
  encoding_->setCurrentIndex(place(tables::encodings, list->encoding()));
  delimiter_->setCurrentIndex(place(tables::delimiters, list->delimiter()));
  mark_->setCurrentIndex(list->mark() ? int(*list->mark() == DecimalMark::comma) : -1);
  mark_->setPlaceholderText(list->mark_is_open() ? tr("comma or point?") : tr("either"));
  heading_->setChecked(list->has_heading());
  showing_ = false;
  strip_->show_columns(list->columns());
}

// As wide as what stands in the first rows, and wide enough to read what the column stands for.
void ImportPage::show_columns() {
  if (!model_.list()) return;
  const QFontMetrics metrics(table_->font());
  for (int column = 0; column < model_.columnCount(); ++column) {
    int width = std::max(metrics.horizontalAdvance(model_.headerData(column, Qt::Horizontal, Qt::DisplayRole).toString()),
                         metrics.horizontalAdvance(column_use_words(model_.list()->columns()[std::size_t(column)].use)));
    for (int row = 0; row < std::min(model_.rowCount(), rows_measured); ++row)
      width = std::max(width, metrics.horizontalAdvance(model_.index(row, column).data().toString()));
    table_->setColumnWidth(column, std::clamp(width + 7 * rhythm, least_column, widest_column));
  }
}

void ImportPage::show_notes() {
  const intake::SampleList* list = model_.list();
  const std::size_t rows = list ? list->rows() : 0, refused = list ? list->refused_rows() : 0;
  const bool whole = list && list->is_whole();
  count_->setText(!list ? QString() : whole ? count_words(rows, refused) : tr("Reading the rest of the list…"));
  next_->setEnabled(refused > 0);
  enter_->setEnabled(whole && rows > 0 && refused == 0 && !session_.read_only());
  if (!list) return;
  const auto& columns = list->columns();
  const bool marked =
      std::any_of(columns.begin(), columns.end(), [](const auto& column) { return column.use.field == intake::ListField::mark; });
  if (!marked) return words_->stop(tr("No column stands for the client’s mark yet: choose it above the rows."));
  if (list->mark_is_open())
    return words_->stop(tr("Some figures mean one thing by a comma and another by a point: choose the decimal mark above."));
  const QModelIndex at = table_->currentIndex();
  const intake::RowNote* note = model_.note(at);
  if (!note) return words_->say(QString());
  const QString place = tr("Line %1, %2: ").arg(list->line(std::size_t(at.row()))).arg(list_field_words(note->field).toLower());
  const QString words =
      (note->field == intake::ListField::none ? tr("Line %1: ").arg(list->line(std::size_t(at.row()))) : place) +
      note_sentence(*note);
  note->warning ? words_->say(words) : words_->stop(words);
}

void ImportPage::next_refused() {
  const QModelIndex next = model_.next_refused(table_->currentIndex().row() + 1);
  if (!next.isValid()) return;
  table_->setCurrentIndex(next);
  table_->scrollTo(next);
  table_->setFocus(Qt::OtherFocusReason);
}

void ImportPage::enter_list() {
  if (!model_.list() || !enter_->isEnabled()) return;
  const auto entered_ids = intake::enter_list(session_.journal, consignment_, *model_.list());
  if (!entered_ids.ok()) return words_->stop(sentence(entered_ids.error()));
  emit entered();
}

// Escape belongs to the page before it belongs to the window.
bool ImportPage::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();
    return true;
  }
  return QWidget::event(event);
}

void ImportPage::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    emit left();
  } else if (event->key() == Qt::Key_F3) {
    next_refused();
  } else {
    QWidget::keyPressEvent(event);
  }
}

}  // namespace prillbook::ui
