// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/mass_flow.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/units/units.h"

namespace prillbook::milling {
namespace {

// Something that happened to one holder: a step, or portions cut without one.
struct Happening {
  std::int64_t utc_ms = 0;
  const Step* step = nullptr;
  std::vector<const portions::Portion*> cuts;
};

const Mass dust(1, unit::milligram);

class Builder {
 public:
  explicit Builder(const FlowInput& input) : input_(input) {
    for (const portions::Portion& portion : input.portions) children_[portion.parent.value].push_back(&portion);
    for (const Step& step : input.steps) steps_[step.portion.value].push_back(&step);
  }

  std::vector<Reach> build() {
    Reach source;
    source.sample = input_.sample;
    source.name = input_.number;
    source.weighed = input_.mass.has_value();
    source.mass = source.weighed ? input_.mass->mass() : first_mass(PortionId{});
    reaches_.push_back(source);
    // Holders wait on a list of their own: a damaged, very deep tree must not use up the stack.
    std::vector<int> open{0};
    while (!open.empty()) {
      const int reach = open.back();
      open.pop_back();
      if (reaches_.size() > 4 * (input_.portions.size() + input_.steps.size()) + 4) break;
      follow(reach, open);
    }
    return std::move(reaches_);
  }

 private:
  Mass first_mass(PortionId holder) const {
    const auto steps = steps_.find(holder.value);
    if (steps != steps_.end())
      for (const Step* step : steps->second)
        if (step->mass_in) return step->mass_in->mass();
    Mass sum;
    const auto parts = children_.find(holder.value);
    if (parts != children_.end())
      for (const portions::Portion* part : parts->second)
        if (part->mass) sum += part->mass->mass();
    return sum;
  }

  std::vector<Happening> happenings(PortionId holder) const {
    std::vector<Happening> all;
    const auto steps = steps_.find(holder.value);
    if (steps != steps_.end())
      for (const Step* step : steps->second) all.push_back({step->done_at.utc_ms, step, {}});
    const auto parts = children_.find(holder.value);
    if (parts != children_.end())
      for (const portions::Portion* part : parts->second) {
        const auto own =
            std::find_if(all.begin(), all.end(), [&](const Happening& one) { return one.step && one.step->id == part->step; });
        if (part->step && own != all.end())
          own->cuts.push_back(part);
        else
          all.push_back({part->cut_at ? part->cut_at->utc_ms : INT64_MAX, nullptr, {part}});
      }
    std::stable_sort(all.begin(), all.end(), [](const Happening& a, const Happening& b) { return a.utc_ms < b.utc_ms; });
    return all;
  }

  int add(Reach reach, int parent) {
    reach.parent = parent;
    reach.depth = reaches_[std::size_t(parent)].depth + 1;
    reaches_.push_back(std::move(reach));
    return int(reaches_.size()) - 1;
  }

  int add_rest(ReachKind kind, const Step* step, Mass mass, bool weighed, int parent) {
    Reach rest;
    rest.kind = kind;
    rest.mass = std::max(mass, Mass());
    rest.weighed = weighed;
    rest.holder = reaches_[std::size_t(parent)].holder;
    if (kind == ReachKind::after && step) {
      rest.step = step->id;
      rest.name = step->kind;
      rest.top_size = step->top_size;
    } else if (rest.holder) {
      rest.portion = rest.holder;
    } else {
      rest.sample = input_.sample;
    }
    return add(std::move(rest), parent);
  }

  void add_loss(const Step& step, Mass mass, int parent) {
    if (!(mass > dust)) return;
    Reach loss;
    loss.kind = ReachKind::loss;
    loss.mass = mass;
    loss.step = step.id;
    loss.holder = reaches_[std::size_t(parent)].holder;
    loss.name = step.kind;
    add(std::move(loss), parent);
  }

  Mass add_parts(const std::vector<const portions::Portion*>& parts, int parent, std::vector<int>& open, bool& all_weighed) {
    Mass sum;
    for (const portions::Portion* part : parts) {
      Reach reach;
      reach.kind = ReachKind::part;
      reach.weighed = part->mass.has_value();
      reach.mass = reach.weighed ? part->mass->mass() : Mass();
      reach.portion = reach.holder = part->id;
      reach.name = fmt::format("{}/{}", input_.number, part->number);
      reach.purpose = part->purpose;
      all_weighed = all_weighed && reach.weighed;
      sum += reach.mass;
      open.push_back(add(std::move(reach), parent));
    }
    return sum;
  }

  void follow(int reach, std::vector<int>& open) {
    Mass mass = reaches_[std::size_t(reach)].mass;
    bool weighed = reaches_[std::size_t(reach)].weighed;
    const std::vector<Happening> all = happenings(reaches_[std::size_t(reach)].holder);
    for (std::size_t i = 0; i < all.size();) {
      const int parent = reach;
      if (const Step* step = all[i].step; step && !gives_parts(step->kind)) {
        const Mass lost = step->mass_in && step->mass_out ? step->mass_in->mass() - step->mass_out->mass() : Mass();
        mass -= lost;
        reach = add_rest(ReachKind::after, step, mass, weighed, parent);
        add_loss(*step, lost, parent);
        ++i;
        continue;
      }
      // Cuts behind one another without a step between are one fork.
      std::vector<const portions::Portion*> parts = all[i].cuts;
      const Step* split = all[i].step;
      ++i;
      while (!split && i < all.size() && !all[i].step) {
        parts.insert(parts.end(), all[i].cuts.begin(), all[i].cuts.end());
        ++i;
      }
      bool all_weighed = true;
      const Mass given = add_parts(parts, parent, open, all_weighed);
      mass -= given;
      if (split && split->closed && split->mass_in && all_weighed) {
        const Mass lost = split->mass_in->mass() - given;
        mass -= lost;
        add_loss(*split, lost, parent);
      }
      if (i == all.size() && weighed && !(mass > dust)) break;
      reach = add_rest(ReachKind::rest, split, mass, weighed, parent);
    }
  }

  const FlowInput& input_;
  std::map<RecordId, std::vector<const portions::Portion*>> children_;
  std::map<RecordId, std::vector<const Step*>> steps_;
  std::vector<Reach> reaches_;
};

}  // namespace

std::vector<Reach> flow_of(const FlowInput& input) { return Builder(input).build(); }

FlowLayout lay_out(const std::vector<Reach>& reaches, const FlowStyle& style) {
  FlowLayout layout;
  layout.places.resize(reaches.size());
  if (reaches.empty()) return layout;
  double source_g = reaches.front().mass.in(unit::gram);
  for (const Reach& reach : reaches) source_g = std::max(source_g, reach.mass.in(unit::gram));
  const double per_gram = source_g > 0 ? style.source_width / source_g : 0;
  const auto width_of = [&](const Reach& reach) { return std::max(reach.mass.in(unit::gram)*per_gram, style.least_width); };
  std::vector<double> band(reaches.size()), below(reaches.size(), 0.0), next(reaches.size(), 0.0), end(reaches.size(), 0.0);
  for (std::size_t i = reaches.size(); i-- > 0;) {
    const double width = width_of(reaches[i]);
    band[i] = std::max(width + (width >= style.words_inside ? style.margin : style.least_band), below[i]);
    if (reaches[i].parent >= 0) below[std::size_t(reaches[i].parent)] += band[i];
  }
  for (std::size_t i = 0; i < reaches.size(); ++i) {
    ReachPlace& place = layout.places[i];
    place.width = width_of(reaches[i]);
    place.length = style.reach;
    place.x = style.margin + reaches[i].depth * style.column;
    double top = style.margin;
    if (reaches[i].parent >= 0) {
      const std::size_t parent = std::size_t(reaches[i].parent);
      const ReachPlace& up = layout.places[parent];
      top = next[parent];
      next[parent] += band[i];
      place.from_x = up.x + up.length;
      place.from_width = std::min(place.width, std::max(0.0, up.y + up.width - end[parent]));
      place.from_y = std::min(end[parent], up.y + up.width);
      end[parent] += place.from_width;
    } else {
      place.from_x = place.x;
      place.from_width = place.width;
    }
    place.y = top + (band[i] - place.width) / 2;
    if (reaches[i].parent < 0) place.from_y = place.y;
    next[i] = top + (band[i] - below[i]) / 2;
    end[i] = place.y;
    layout.width = std::max(layout.width, place.x + place.length + style.margin);
    layout.height = std::max(layout.height, top + band[i] + style.margin);
  }
  return layout;
}

}  // namespace prillbook::milling
