using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>The sections of a plan as somebody would draw them: gaps and a place inside, nothing else of what the planner knows.</summary>
internal static class PlanDrawing
{
    public static IEnumerable<DrawnSection> Of(ReversingPlan plan) => plan.Sections.Select(section => new DrawnSection(
        [.. section.Borders.Select(border => border.At)],
        section.Stretches.IsEmpty ? null : Middle(section.Stretches.MaxBy(stretch => stretch.ToMetres - stretch.FromMetres)),
        section.Stretches.IsEmpty ? new(section.Turnouts[0], "points") : null));

    private static WireUp.Layouts.TrackPlace Middle(TrackStretch stretch) => new(stretch.Section, (stretch.FromMetres + stretch.ToMetres) / 2);
}
