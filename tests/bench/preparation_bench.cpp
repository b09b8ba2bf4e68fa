// SPDX-License-Identifier: GPL-3.0-or-later
// The crushing order of a thousand waiting samples, as arithmetic against a plain sort of them and from their records; the
// carry-over of a thousand uses; the mass picture of 500 portions as it is scrolled, frame by frame.
#include <fmt/format.h>

#include <QtGui/QImage>
#include <QtGui/QPainter>
#include <QtWidgets/QApplication>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QScrollBar>
#include <algorithm>
#include <chrono>
#include <random>

#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/milling/machines.h"
#include "core/preparation/crushing_order.h"
#include "core/results/due_order.h"
#include "core/results/machine_uses.h"
#include "ui/preparation/mass_picture.h"

namespace prillbook {
namespace {

template <class Work>
double best_ms(Work&& work) {
  double best = 1e9;
  for (int round = 0; round < 20; ++round) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

std::vector<WaitingRock> thousand_samples() {
  std::mt19937 dice(7);
  std::lognormal_distribution<double> grade(1.0, 1.5);
  std::uniform_real_distribution<double> mass(500, 6000);
  std::vector<WaitingRock> rocks;
  for (int i = 0; i < 1000; ++i) rocks.push_back({i, Mass(mass(dice), unit::gram), Grade(grade(dice), unit::gram_per_tonne), {}});
  return rocks;
}

std::vector<milling::Reach> picture_of(int portions) {
  milling::FlowInput input;
  input.sample = SampleId{1};
  input.number = "26-0001";
  input.mass = *readings::parse("100 kg", {});
  for (int i = 1; i <= portions; ++i) {
    portions::Portion portion;
    portion.id = PortionId{i};
    portion.sample = input.sample;
    portion.parent = PortionId{i < 5 ? 0 : i / 5};
    portion.number = i;
    portion.purpose = "split";
    portion.mass = *readings::parse("100 g", {});
    portion.cut_at = Instant{i * 60'000, 0};
    input.portions.push_back(std::move(portion));
  }
  return milling::flow_of(input);
}

void bench_order() {
  const auto rocks = thousand_samples();
  OrderRules rules;
  rules.holdup = Mass(20, unit::gram);
  rules.held = {rules.holdup, Grade(50, unit::gram_per_tonne)};
  rules.floor = Grade(0.1, unit::gram_per_tonne);
  rules.flush = Mass(500, unit::gram);
  std::size_t places = 0;
  const double order = best_ms([&] { places = crushing_order(rocks, rules)->places.size(); });
  const double arrival = best_ms([&] { places += as_given(rocks, rules)->places.size(); });
  const double sort = best_ms([&] {
    auto sorted = rocks;
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.grade < b.grade; });
    places += sorted.size();
  });
  fmt::print("crushing order of 1000 samples: {:.2f} ms, {:.1f} times a plain sort ({:.3f} ms); arrival order {:.2f} ms [{}]\n",
             order, order / sort, sort, arrival, places);
}

// A lab with a thousand samples of which nothing is known but mass and expected class, and as many uses of one machine.
struct BusyLab {
  SteppingClock clock{*parse_iso("2026-05-04T09:00:00.000+02:00")};
  std::unique_ptr<store::Connection> connection = store::Connection::in_memory().value();
  std::unique_ptr<history::Journal> journal = history::Journal::open(*connection, clock).value();
  MachineId waited_for, used;

  BusyLab() {
    journal->set_author("HM");
    waited_for = milling::add_machine(*journal, "jaw crusher", "crusher").value();
    used = milling::add_machine(*journal, "disc pulveriser", "pulveriser").value();
    const ClientId client = lab::add_client(*journal, "Larch Adit Syndicate").value();
    const ConsignmentId consignment = custody::log_consignment(*journal, {client, {}, {}, {}, {}, {}, {}}).value();
    milling::clean(*journal, {used, "brush", {}, {}, {}, false, {}}).value();
    journal->record("a busy week", [&](history::ChangeSet& set) { return fill(set, consignment); }).ok();
  }

  Result<void> fill(history::ChangeSet& set, ConsignmentId consignment) const {
    constexpr const char* classes[] = {"low", "ordinary", "rich", "specimen", "barren"};
    for (int i = 0; i < 1000; ++i) {
      custody::NewSample fresh;
      fresh.consignment = consignment;
      fresh.mark = fmt::format("LA-{:04}", i);
      fresh.expected = classes[i * 7 % 5];
      fresh.mass_received = *readings::parse(fmt::format("{}.{} kg", 1 + i % 5, i % 10), {});
      PRILLBOOK_ASSIGN(const SampleId sample, custody::log_sample(set, fresh));
      PRILLBOOK_TRY(
          set.set(history::fields::sample::due, sample.value, to_iso({set.when().utc_ms + i % 30 * 86'400'000LL, 120})));
      PRILLBOOK_TRY(
          set.make(history::Entity::step, {{history::fields::step::sample, sample.value},
                                           {history::fields::step::kind, std::string("pulverise")},
                                           {history::fields::step::machine, used.value},
                                           {history::fields::step::mass_in, readings::cell_of(fresh.mass_received)},
                                           {history::fields::step::done_at, to_iso({set.when().utc_ms + i * 60'000, 120})}}));
    }
    return {};
  }
};

void bench_records() {
  BusyLab lab;
  const Instant now = lab.clock.now();
  std::size_t places = 0, uses = 0;
  const double order =
      best_ms([&] { places = results::propose_order_by_due(*lab.connection, lab.waited_for, now).value().places.size(); });
  const double carried = best_ms([&] { uses = results::machine_uses(*lab.connection, lab.used, 1000).value().size(); });
  fmt::print(
      "from the records: crushing order with carry-over of {} waiting samples {:.1f} ms; carry-over of {} uses {:.1f} ms\n",
      places, order, uses, carried);
}

void bench_picture() {
  const auto reaches = picture_of(500);
  milling::FlowLayout layout;
  const double lay = best_ms([&] { layout = milling::lay_out(reaches); });
  QImage image(1280, 720, QImage::Format_ARGB32_Premultiplied);
  const double whole = best_ms([&] {
    QPainter painter(&image);
    ui::paint_flow(painter, reaches, layout, {});
  });
  fmt::print("mass picture of 500 portions, {} reaches: layout {:.2f} ms, whole painted {:.2f} ms\n", reaches.size(), lay, whole);
}

// As at the station: the picture in its scroll area, one notch of the wheel a frame. 60 frames a second leave 16.7 ms.
void bench_scrolling() {
  QScrollArea place;
  auto* picture = new ui::MassPicture;
  picture->set_flow(picture_of(500), DecimalMark::point);
  place.setWidget(picture);
  place.setWidgetResizable(true);
  place.resize(1000, 352);
  place.show();
  QApplication::processEvents();
  std::vector<double> frames;
  QScrollBar& bar = *place.verticalScrollBar();
  for (int at = bar.minimum(); at <= bar.maximum(); at += 60) {
    const auto start = std::chrono::steady_clock::now();
    bar.setValue(at);
    place.viewport()->repaint();
    picture->repaint(picture->visibleRegion());
    frames.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  std::sort(frames.begin(), frames.end());
  fmt::print("scrolled through in {} frames: median {:.2f} ms, 99 of 100 within {:.2f} ms, slowest {:.2f} ms\n", frames.size(),
             frames[frames.size() / 2], frames[frames.size() * 99 / 100], frames.back());
}

}  // namespace
}  // namespace prillbook

int main(int count, char** words) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication application(count, words);
  prillbook::bench_order();
  prillbook::bench_records();
  prillbook::bench_picture();
  prillbook::bench_scrolling();
}
