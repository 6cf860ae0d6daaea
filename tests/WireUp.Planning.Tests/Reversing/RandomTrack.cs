using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>Random track plans: turnouts with sections between their ends at random, a few ends left open.</summary>
internal static class RandomTrack
{
    /// <param name="seed">Same seed, same layout.</param>
    /// <param name="turnouts">How many turnouts; at least 1.</param>
    /// <param name="frog">The frog of all turnouts.</param>
    public static Layout Of(int seed, int turnouts, FrogKind frog = FrogKind.Insulated)
    {
        Random random = new(seed);
        return Around([.. Enumerable.Range(1, turnouts).Select(i => new Piece.Turnout(new($"T{i}"), (TurnoutHand)random.Next(3), frog))], random, seed);
    }

    /// <summary>Sections between the ends of pieces at random, a few ends left open.</summary>
    /// <param name="trackwork">The pieces.</param>
    /// <param name="random">Draws lengths and ends.</param>
    /// <param name="seed">For the name.</param>
    /// <param name="liftOut">Draws whether a section can be lifted out; null for none.</param>
    internal static Layout Around(IEnumerable<Piece> trackwork, Random random, int seed, Func<Random, bool>? liftOut = null)
    {
        List<Piece> pieces = [.. trackwork];
        List<TrackEnd> ends = [.. pieces.SelectMany(piece => piece.Ends)];
        List<Joint> joints = [];
        for (int number = 1; ends.Count > 0; number++)
        {
            Piece.Section section = new(
                new(string.Create(CultureInfo.InvariantCulture, $"s{number:D2}")),
                Length.FromMillimeters(random.Next(6) == 0 ? 40 : 100 * random.Next(3, 40)))
            {
                LiftOut = liftOut?.Invoke(random) ?? false,
            };
            pieces.Add(section);
            joints.Add(new(Take(ends, random), section.End("a")));
            if (ends.Count > 0 && random.Next(4) > 0)
            {
                joints.Add(new(section.End("b"), Take(ends, random)));
            }
        }

        return new()
        {
            Name = $"Random {seed}",
            LongestTrain = Length.FromMeters(1),
            ShortestPickup = Length.FromMillimeters(60),
            Track = [.. pieces],
            Joints = [.. joints],
        };
    }

    private static TrackEnd Take(List<TrackEnd> ends, Random random)
    {
        int i = random.Next(ends.Count);
        TrackEnd end = ends[i];
        ends.RemoveAt(i);
        return end;
    }
}
