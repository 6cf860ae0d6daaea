using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// A rail that a feeder reaches only over more metal than can be trusted: farther than the layout allows, or over slide-on joiners that are
/// too many or not to be trusted. One finding for each joined-up stretch of track.
/// </summary>
internal sealed class FeederTooFar : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4008", Severity.Warning, "A rail is far from its feeder");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ParityGraph parity = context.Polarity.Parity;
        return TrustedMetal.Beyond(context)
            .GroupBy(rail => parity.Components[parity.PartAt(rail.At)])
            .OrderBy(stretch => stretch.Key)
            .Select(stretch => Tell(context, [.. stretch]));
    }

    private Finding Tell(CheckContext context, List<FarRail> rails)
    {
        ImmutableArray<string> sections = [.. rails.Select(rail => rail.At.Section.ToString()).Distinct()];
        FarRail worst = rails.MaxBy(rail => rail.Metres)!;
        string how = double.IsFinite(worst.Metres)
            ? $"the farthest place, {Words.Quote(worst.At)}, is {Words.Say(UnitsNet.Length.FromMeters(worst.Metres))} away"
            : $"{Words.Quote(worst.At)} is reached over joiners only that are too many or not to be trusted";
        return Say(
            $"{Words.Count(sections.Length, "section")} ({Words.List(sections)}) lie{(sections.Length == 1 ? "s" : "")} in part farther than {Words.Say(context.Layout.MaxFeederDistance)} from any feeder along metal that can be trusted: {how}.",
            $"Put a feeder at {Words.Quote(worst.At)}.",
            rails.Select(rail => $"{rail.At}/{RailSides.Word(rail.Side)}"));
    }
}
