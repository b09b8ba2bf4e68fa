// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/printing/print_page.h"

#include <QtCore/QTimer>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/pages_view.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr double preview_dots_per_inch = 110;
constexpr int choices_width = 45 * rhythm;

QScrollArea* scrolling(QWidget* content) {
  auto* scroll = new QScrollArea;
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setWidget(content);
  scroll->viewport()->setAutoFillBackground(false);
  content->setAutoFillBackground(false);
  return scroll;
}

QString printer_fault_sentence(const Error& error) {
  if (error.field != "printer") return sentence(error);
  if (error.arguments.empty()) return PrintPage::tr("No printer is set up on this machine. Write a PDF and print it elsewhere.");
  const QString name = to_qt(error.arguments[0]);
  return error.code == ErrorCode::not_found ? PrintPage::tr("The printer %1 is no longer there.").arg(name)
                                            : PrintPage::tr("The printer %1 does not take the pages.").arg(name);
}

}  // namespace

PrintPage::PrintPage(Session& session, Printing printing, QWidget* parent)
    : QWidget(parent),
      session_(session),
      printing_(std::move(printing)),
      head_(new Headline),
      pdf_(new PressButton(tr("Write as PDF…"), PressButton::Rank::main)),
      print_(new PressButton(tr("Print"))),
      printer_(new PickField(tr("Printer"))),
      news_(new MessageBar),
      preview_(new PagesView),
      soon_(new QTimer(this)) {
  auto* left = new QWidget;
  auto* left_column = new QVBoxLayout(left);
  left_column->setContentsMargins(0, rhythm, 3 * rhythm, rhythm);
  left_column->setSpacing(rhythm);
  auto* choices = new QVBoxLayout;
  choices->setSpacing(rhythm);
  choices_ = choices;
  left_column->addLayout(choices);
  left_column->addWidget(printer_);
  left_column->addStretch();
  auto* right = new QWidget;
  auto* right_column = new QVBoxLayout(right);
  right_column->setContentsMargins(3 * rhythm, rhythm, 3 * rhythm, rhythm);
  right_column->addWidget(preview_);
  right_column->addStretch();
  auto* columns = new QHBoxLayout;
  columns->setSpacing(0);
  auto* choices_scroll = scrolling(left);
  choices_scroll->setFixedWidth(choices_width);
  columns->addWidget(choices_scroll);
  columns->addWidget(hairline_upright());
  columns->addWidget(scrolling(right), 1);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(3 * rhythm, 2 * rhythm, 0, 0);
  whole->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(0, 0, 3 * rhythm, 0);
  top->setSpacing(rhythm);
  top->addWidget(head_, 1);
  top->addWidget(print_, 0, Qt::AlignTop);
  top->addWidget(pdf_, 0, Qt::AlignTop);
  whole->addLayout(top);
  whole->addWidget(hairline());
  whole->addWidget(news_);
  whole->addLayout(columns, 1);
  printer_->on_commit([this](std::optional<std::int64_t> number) -> Result<void> {
    if (number && *number >= 1 && *number <= printer_names_.size()) printer_name_ = printer_names_[int(*number) - 1];
    return {};
  });
  connect(pdf_, &QPushButton::clicked, this, &PrintPage::write_pdf);
  connect(print_, &QPushButton::clicked, this, &PrintPage::print);
  tell({});
  soon_->setSingleShot(true);
  soon_->setInterval(60);
  connect(soon_, &QTimer::timeout, this, &PrintPage::show_pages);
}

void PrintPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  list_printers();
  tell({});
}

void PrintPage::list_printers() {
  printer_names_ = printing_.printers();
  if (!printer_names_.contains(printer_name_)) printer_name_ = printer_names_.value(0);
  std::vector<PickField::Item> items;
  for (int i = 0; i < printer_names_.size(); ++i) items.push_back({i + 1, printer_names_[i]});
  printer_->set_items(std::move(items));
  printer_->set_value(printer_names_.isEmpty() ? std::nullopt
                                               : std::optional<std::int64_t>(printer_names_.indexOf(printer_name_) + 1));
  printer_->setVisible(!printer_names_.isEmpty());
}

// The line of news is there only while it says something.
void PrintPage::tell(const QString& words) {
  news_->say(words);
  news_->setVisible(!words.isEmpty());
}

void PrintPage::tab_on_from(QWidget* last_choice) {
  setTabOrder(last_choice, printer_->editor());
  setTabOrder(printer_->editor(), print_);
  setTabOrder(print_, pdf_);
}

void PrintPage::renew() { soon_->start(); }

void PrintPage::show_pages() {
  const auto laid_out = pages();
  pdf_->setEnabled(laid_out.ok());
  print_->setEnabled(laid_out.ok());
  preview_->set_pages(laid_out.ok() ? paper::page_images(*laid_out, preview_dots_per_inch * devicePixelRatioF())
                                    : std::vector<QImage>{});
  if (laid_out.ok()) return tell({});
  tell(tr("Choose what is to be printed."));
  if (laid_out.error().code != ErrorCode::missing_key) news_->refused(laid_out.error());
}

void PrintPage::write_pdf() {
  session_.prompter.choose_file(
      {FilePurpose::save, tr("Write as PDF"), tr("PDF (*.pdf)"), file_name() + QStringLiteral(".pdf")},
      [this](const QString& path) {
        write_to(path.endsWith(QLatin1String(".pdf"), Qt::CaseInsensitive) ? path : path + QStringLiteral(".pdf"));
      });
}

void PrintPage::write_to(const QString& path) {
  const auto laid_out = pages();
  const auto written = laid_out.ok() ? paper::write_pdf(*laid_out, to_core(path)) : Result<void>(laid_out.error());
  news_->show();
  if (!written.ok()) return news_->stop(file_sentence(written.error(), path));
  news_->written(tr("Written: %1").arg(path));
  emit said(tr("Written: %1").arg(path));
}

void PrintPage::print() {
  const auto laid_out = pages();
  news_->show();
  if (!laid_out.ok()) return news_->refused(laid_out.error());
  list_printers();
  if (const auto printed = printing_.print(*laid_out, printer_name_); !printed.ok())
    return news_->stop(printer_fault_sentence(printed.error()));
  const auto count = laid_out->sheets.size();
  const QString words =
      count == 1 ? tr("1 page sent to %1").arg(printer_name_) : tr("%1 pages sent to %2").arg(count).arg(printer_name_);
  news_->say(words);
  emit said(words);
}

}  // namespace prillbook::ui
