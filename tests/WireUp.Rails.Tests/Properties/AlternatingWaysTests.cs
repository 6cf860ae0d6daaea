using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>The decision by alternating paths against trying every way, on contacts put together at random.</summary>
public sealed class AlternatingWaysTests
{
    private const int Fed = 4;

    [Fact]
    public void Alternating_paths_find_a_way_exactly_where_trying_every_way_does()
    {
        (int yes, int no, int misled) = (0, 0, 0);
        for (int seed = 1; seed <= 2000; seed++)
        {
            ContactWeb web = Frogs(new Random(seed));
            Dictionary<int, GoalField> fields = [];
            foreach (int step in Enumerable.Range(0, 2 * web.Contacts.Length).Where(step => web.Tail(step) < Fed / 2))
            {
                if (web.ClusterAt(step) is { } cluster)
                {
                    GoalField field = fields.TryGetValue(cluster.Number, out GoalField? known) ? known : fields[cluster.Number] = new(cluster, IsGoal);
                    bool expected = Tried(web, step) is not null;
                    Assert.True(cluster.IsLocal);
                    Assert.True(expected == field.Exact!.Leads(step), $"seed {seed}, step {step}");
                    Assert.True(!expected || IsConsistent(web, step, field.Exact!.Way(step)), $"seed {seed}, step {step}");
                    (yes, no) = expected ? (yes + 1, no) : (yes, no + 1);
                    misled += !expected && field.Leads(step) ? 1 : 0;
                }
            }
        }

        // Often enough a way that only looks at one step and the next is there, and no consistent one.
        Assert.True(yes > 1000 && no > 1000 && misled > 5, $"{yes} {no} {misled}");
    }

    [Fact]
    public void What_the_search_finds_is_consistent_and_as_short_as_any_whatever_the_contacts()
    {
        (int found, int local) = (0, 0);
        for (int seed = 1; seed <= 1000; seed++)
        {
            Random random = new(seed);
            ContactWeb web = seed % 2 == 0 ? Frogs(random) : Switches(random);
            PositionSearchWorkspace search = new(web, 10_000_000);
            foreach (int step in Enumerable.Range(0, 2 * web.Contacts.Length).Where(step => web.Tail(step) < Fed / 2))
            {
                if (web.ClusterAt(step) is { } cluster)
                {
                    ImmutableArray<int>? way = search.Find(step, new(cluster, IsGoal));
                    int? shortest = Tried(web, step);
                    Assert.False(search.GaveUp);
                    Assert.True(shortest == way?.Length, $"seed {seed}, step {step}");
                    Assert.True(way is not { } each || IsConsistent(web, step, each), $"seed {seed}, step {step}");
                    (found, local) = (found + (way is null ? 0 : 1), local + (cluster.IsLocal ? 1 : 0));
                }
            }
        }

        Assert.True(found > 500 && local > 500, $"{found} {local}");
    }

    private static bool IsGoal(int net) => net is >= Fed / 2 and < Fed;

    /// <summary>Turnouts: a frog, and a contact from it to each of two stock rails; what is joined to what is left to chance. Four nets are fed.</summary>
    private static ContactWeb Frogs(Random random)
    {
        int nets = Fed + random.Next(3, 8);
        ImmutableArray<NetContact>.Builder contacts = ImmutableArray.CreateBuilder<NetContact>();
        for (int i = random.Next(4, 10); i > 0; i--)
        {
            int[] three = [.. Enumerable.Range(0, nets)];
            random.Shuffle(three);
            contacts.Add(new(three[0], three[1], new($"T{i}"), "through", null!));
            contacts.Add(new(three[0], three[2], new($"T{i}"), "diverging", null!));
        }

        return new(contacts.ToImmutable(), nets, net => net < Fed);
    }

    /// <summary>Switches of three positions that act anywhere, in two places or more.</summary>
    private static ContactWeb Switches(Random random)
    {
        int nets = Fed + random.Next(3, 7), owners = random.Next(2, 5);
        ImmutableArray<NetContact>.Builder contacts = ImmutableArray.CreateBuilder<NetContact>();
        for (int i = random.Next(6, 14); i > 0; i--)
        {
            int from = random.Next(nets), to = random.Next(nets);
            if (from != to)
            {
                contacts.Add(new(from, to, new($"S{random.Next(owners)}"), $"{random.Next(3)}", null!));
            }
        }

        return new(contacts.ToImmutable(), nets, net => net < Fed);
    }

    /// <summary>The length of the shortest consistent way, by trying every one that passes no net twice.</summary>
    private static int? Tried(ContactWeb web, int step)
    {
        int? best = null;
        Go(step, [], [], 1);
        return best;

        void Go(int at, HashSet<int> passed, Dictionary<PieceId, string> positions, int length)
        {
            NetContact contact = web.Contacts[at >> 1];
            bool isNew = positions.TryAdd(contact.Piece, contact.Position);
            int net = web.Head(at);
            if (positions[contact.Piece] != contact.Position)
            {
                return;
            }

            if (IsGoal(net))
            {
                best = best < length ? best : length;
            }
            else if (web.MayPass(net) && passed.Add(net))
            {
                foreach (int next in web.Touching(net))
                {
                    Go(web.StepFrom(net, next), passed, positions, length + 1);
                }

                passed.Remove(net);
            }

            if (isNew)
            {
                positions.Remove(contact.Piece);
            }
        }
    }

    private static bool IsConsistent(ContactWeb web, int step, ImmutableArray<int> way)
    {
        Dictionary<PieceId, string> positions = [];
        int net = web.Tail(step);
        foreach (int index in way)
        {
            NetContact contact = web.Contacts[index];
            if ((contact.From != net && contact.To != net) || (!positions.TryAdd(contact.Piece, contact.Position) && positions[contact.Piece] != contact.Position))
            {
                return false;
            }

            net = contact.From == net ? contact.To : contact.From;
        }

        return IsGoal(net) && way[0] == step >> 1;
    }
}
