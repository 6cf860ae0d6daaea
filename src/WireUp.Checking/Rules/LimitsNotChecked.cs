using WireUp.Circuits;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Volts and fault currents were not judged, wholly or in part: silence about them proves nothing.</summary>
internal sealed class LimitsNotChecked : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU4010", Severity.Warning, "Volts and fault currents were not checked");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        if (context.IsShorted)
        {
            yield return Say(
                "Volts and fault currents were not checked, because rails of opposite polarity are joined.",
                "Mend the shorts above and check again.");
            yield break;
        }

        foreach (CircuitProblem problem in context.Power.Problems)
        {
            yield return Say($"Part of the circuit has no figures: {problem.Message.TrimEnd('.')}.", "Mend the place named and check again.", problem.At);
        }

        if (Sections(context.Unsolved) is { Length: > 0 } tooMany)
        {
            yield return Say(
                $"Volts and fault currents of {Words.List(tooMany)} were not checked, because more than {PowerSurvey.MostSets} sets of turnout positions would be needed.",
                $"Put a feeder at {Words.Quote(tooMany[0])}, beyond gaps in the rails that come from the frogs.",
                tooMany);
        }

        if (Sections(context.FedByShort) is { Length: > 0 } shorted)
        {
            yield return Say(
                $"Volts and fault currents of {Words.List(shorted)} were not checked, because the positions that bring current there join rails of opposite polarity.",
                "Mend the shorts above and check again.",
                shorted);
        }
    }

    private static string[] Sections(IEnumerable<SwitchedTrack> tracks) => [.. tracks.Select(track => track.Section.ToString()).Distinct()];
}
