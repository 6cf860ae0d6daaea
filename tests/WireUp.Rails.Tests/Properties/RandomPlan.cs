using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>Small layouts from a seed: any frogs, any joints, any gaps, feeders either way round.</summary>
internal static class RandomPlan
{
    public const double GapMetres = 0.5, FeedMetres = 1;

    public static Layout Of(int seed)
    {
        Random random = new(seed);
        PlanBuilder plan = new();
        List<string> ends = [];
        int turnouts = random.Next(1, 5), sections = random.Next(2, 6);
        for (int i = 1; i <= turnouts; i++)
        {
            TurnoutHand hand = (TurnoutHand)random.Next(3);
            FrogKind frog = random.Next(4) == 0 ? FrogKind.Insulated : random.Next(5) == 0 ? FrogKind.Isolated : FrogKind.Live;
            plan.Turnouts($"T{i}", hand, frog, random.Next(2) == 0 ? FrogFeed.Contact : FrogFeed.None);
            ends.AddRange(new Piece.Turnout(new($"T{i}"), hand, frog).Ends.Select(end => end.ToString()));
        }

        for (int i = 1; i <= sections; i++)
        {
            plan.Sections($"s{i}");
            ends.AddRange([$"s{i}.a", $"s{i}.b"]);
            if (random.Next(3) == 0)
            {
                plan.Gap($"s{i}@{GapMetres}", (RailSet)random.Next(1, 4));
            }
        }

        string[] shuffled = [.. ends];
        random.Shuffle(shuffled);
        for (int i = 0; i + 1 < shuffled.Length - random.Next(3); i += 2)
        {
            plan.Chain($"{shuffled[i]} > {shuffled[i + 1]}");
            if (random.Next(3) == 0)
            {
                plan.Gap(shuffled[i + random.Next(2)], (RailSet)random.Next(1, 4));
            }
        }

        for (int i = 1; i <= sections; i++)
        {
            if (random.Next(2) == 0)
            {
                plan.Feed("d", $"s{i}@{FeedMetres}{(random.Next(2) == 0 ? "!" : "")}");
            }
        }

        return plan.Build();
    }
}
