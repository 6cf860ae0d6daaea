using System.Collections.Immutable;
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
            string end = loop.Path.IsEmpty ? "so that no way of feeding it can be right" : "a standing short as soon as it is fed";
            yield return Say(
                $"{Way(context, loop)} brings the left rail back as the right one, {end}.",
                $"Make part of that walk a reversing section: gaps in both rails at its ends, its feeders behind {device}.",
                Places(context, loop)) with
            {
                Path = [.. loop.Path.Select(point => point.ToString())],
            };
        }
    }

    /// <summary>Where the walk leaves its first piece and comes back to it, the trackwork it passes, and how long it is.</summary>
    private static string Way(CheckContext context, OddLoop loop)
    {
        if (loop.Walk is not { } walk)
        {
            return $"The way along the rails from {Words.Quote(loop.Path[0])} to {Words.Quote(loop.Path[^1])}";
        }

        ImmutableArray<Piece> pieces = [.. walk.Steps.Skip(1).Select(step => context.Index.Piece(step.Enter.Piece))];
        ImmutableArray<string> trackwork = [.. pieces.Where(piece => piece is not Piece.Section).Select(piece => piece.Id.ToString())];
        double metres = pieces.OfType<Piece.Section>().Sum(section => section.Length.Meters);
        string by = trackwork.IsEmpty ? "" : $" by {Words.List(trackwork)}";
        return $"Walking {Words.Say(UnitsNet.Length.FromMeters(metres))} along the track from {Words.Quote(walk.Steps[0].Leave)}{by} to {Words.Quote(walk.Steps[0].Enter)}";
    }

    private static IEnumerable<string> Places(CheckContext context, OddLoop loop) => loop.Walk is { } walk
        ? walk.Steps.Select(step => context.Polarity.Parity.Parts[step.Part].Piece.ToString()).Distinct()
        : loop.Path.Select(point => point.Piece.ToString()).Distinct();
}
