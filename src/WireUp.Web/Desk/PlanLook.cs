using WireUp.Documents;

namespace WireUp.Web.Desk;

/// <summary>Which drawing of a layout is wanted.</summary>
/// <param name="From">From above or below.</param>
/// <param name="Figure">What is shown under the track in place of the districts.</param>
/// <param name="WithProposals">Whether the wiring that is proposed is drawn too.</param>
public readonly record struct PlanLook(DrawingView From, DrawnFigure? Figure, bool WithProposals)
{
    internal string Name => $"drawing {From} {Figure} {WithProposals}";
}
