using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Track on which a closed walk comes back with its rails exchanged, and no pair of gaps on the way.</summary>
internal sealed class OddLoopRule : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3003", Severity.Error, "A loop brings rail A to rail B");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        string device = context.Layout.Control == ControlSystem.Direct ? "a reversing switch" : "an auto-reverser";
        foreach (OddLoop loop in context.Polarity.OddLoops)
        {
            string way = loop.Walk?.ToString() ?? string.Join(" > ", loop.Path);
            yield return Say(
                $"Following the track {way} brings the left rail back as the right one{(loop.Path.IsEmpty ? ", so no way of feeding it can be right" : ", a standing short as soon as it is fed")}.",
                $"Make part of that walk a reversing section: gaps in both rails at its ends, its feeders behind {device}.",
                Places(context, loop)) with
            {
                Path = [.. loop.Path.Select(point => point.ToString())],
            };
        }
    }

    private static IEnumerable<string> Places(CheckContext context, OddLoop loop) => loop.Walk is { } walk
        ? walk.Steps.Select(step => context.Polarity.Parity.Parts[step.Part].Piece.ToString()).Distinct()
        : loop.Path.Select(point => point.Piece.ToString()).Distinct();
}
