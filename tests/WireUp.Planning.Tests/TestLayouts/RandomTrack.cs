using WireUp.Layouts;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>Small layouts by chance, the same for the same seed: lengths, gaps and the feeder distance lie on a 0.2 m grid.</summary>
internal static class RandomTrack
{
    public const double GridMetres = 0.2;

    public static Layout Make(int seed, int pieces)
    {
        Random chance = new(seed);
        TrackBuilder track = new();
        List<string> open = [];
        for (int i = 0; i < pieces; i++)
        {
            bool turnout = i > 0 && chance.Next(4) == 0;
            string name = turnout ? $"T{i}" : $"s{i}";
            string[] ends = turnout ? ["points", "through", "diverging"] : ["a", "b"];
            double length = GridMetres * chance.Next(1, 7);
            FrogKind frog = (FrogKind)chance.Next(3);
            _ = turnout ? track.Turnout(name, (TurnoutHand)chance.Next(2), frog) : track.Section(name, length);
            if (turnout && frog == FrogKind.Live)
            {
                track.GapAtJoint($"{name}.through").GapAtJoint($"{name}.diverging");
            }

            if (!turnout && length > 2 * GridMetres && chance.Next(4) == 0)
            {
                track.Gap(name, GridMetres * chance.Next(1, (int)Math.Round(length / GridMetres)), (RailSet)chance.Next(1, 4));
            }

            int joined = chance.Next(ends.Length);
            if (open.Count > 0)
            {
                int at = chance.Next(open.Count);
                track.Join(open[at], $"{name}.{ends[joined]}", (JointKind)(chance.Next(3) == 0 ? 1 : 0));
                open.RemoveAt(at);
            }

            open.AddRange(ends.Where((_, end) => end != joined || i == 0).Select(end => $"{name}.{end}"));
        }

        if (open.Count > 2 && chance.Next(2) == 0)
        {
            track.Join(open[0], open[^1]);
        }

        Layout layout = track.Build(GridMetres * chance.Next(2, 4));
        return layout with
        {
            NoFeeder = [.. layout.Track.OfType<Piece.Section>().Where(_ => chance.Next(8) == 0).Select(section => section.Id)],
        };
    }
}
