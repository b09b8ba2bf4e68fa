// SPDX-License-Identifier: GPL-3.0-or-later
// Typed record ids: a SampleId is not a PortionId.
#pragma once

#include <compare>
#include <cstdint>

namespace prillbook {

// Id of any record, where the entity is known from elsewhere.
using RecordId = std::int64_t;

template <class Tag>
struct Id {
  RecordId value = 0;  // 0: no record

  explicit operator bool() const { return value != 0; }
  friend auto operator<=>(const Id&, const Id&) = default;
};

using PersonId = Id<struct PersonTag>;
using ClientId = Id<struct ClientTag>;
using BalanceId = Id<struct BalanceTag>;
using ConsignmentId = Id<struct ConsignmentTag>;
using SampleId = Id<struct SampleTag>;
using PortionId = Id<struct PortionTag>;
using PanTestId = Id<struct PanTestTag>;
using ChargeId = Id<struct ChargeTag>;
using BeadId = Id<struct BeadTag>;
using WeighingId = Id<struct WeighingTag>;
using PieceId = Id<struct PieceTag>;
using PlaceId = Id<struct PlaceTag>;
using HandOverId = Id<struct HandOverTag>;
using OwnMetalId = Id<struct OwnMetalTag>;
using ToldFigureId = Id<struct ToldFigureTag>;
using AttachmentId = Id<struct AttachmentTag>;
using MachineId = Id<struct MachineTag>;
using StepId = Id<struct StepTag>;
using CleaningId = Id<struct CleaningTag>;
using PlanId = Id<struct PlanTag>;
using SieveId = Id<struct SieveTag>;
using SieveStackId = Id<struct SieveStackTag>;
using SieveAnalysisId = Id<struct SieveAnalysisTag>;
using SieveCutId = Id<struct SieveCutTag>;
using TrayId = Id<struct TrayTag>;
using TrayPlaceId = Id<struct TrayPlaceTag>;
using CheckWeightId = Id<struct CheckWeightTag>;
using CheckWeighingId = Id<struct CheckWeighingTag>;
using PanningId = Id<struct PanningTag>;
using MetallicsId = Id<struct MetallicsTag>;
using LotId = Id<struct LotTag>;
using PotId = Id<struct PotTag>;
using RecipeId = Id<struct RecipeTag>;
using ReducingTestId = Id<struct ReducingTestTag>;
using ChargeDesignId = Id<struct ChargeDesignTag>;
using FurnaceRunId = Id<struct FurnaceRunTag>;
using RunReadingId = Id<struct RunReadingTag>;
using ProofId = Id<struct ProofTag>;
using ControlMaterialId = Id<struct ControlMaterialTag>;
using RunDecisionId = Id<struct RunDecisionTag>;
using MillingLotId = Id<struct MillingLotTag>;
using SummaryId = Id<struct SummaryTag>;

}  // namespace prillbook
