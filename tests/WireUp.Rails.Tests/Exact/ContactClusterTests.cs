using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Contacts of one piece of trackwork beside dead nets: 0 and 1 are fed, from 2 on nets have no feed.</summary>
public sealed class ContactClusterTests
{
    // A frog touches one stock rail or the other. Legs of a switch that lie apart exclude each other without meeting; a position that joins one net to
    // two others sets both ways; two wires side by side in one position are one way.
    [Theory]
    [InlineData(true, "2 0 through", "2 1 diverging")]
    [InlineData(true, "0 2 through", "1 2 diverging")]
    [InlineData(true, "0 2 through", "2 1 diverging")]
    [InlineData(true, "2 0 through", "1 2 diverging")]
    [InlineData(false, "2 0 on", "3 1 off")]
    [InlineData(false, "2 0 on", "2 1 on")]
    [InlineData(false, "0 2 on", "2 1 on")]
    [InlineData(true, "2 0 on", "2 0 on")]
    [InlineData(true, "2 0 on", "0 2 on")]
    [InlineData(true, "2 0 on", "3 1 on")]
    [InlineData(false, "2 0 left", "2 1 right", "3 0 right", "3 1 middle")]
    public void A_piece_is_local_where_contacts_that_exclude_each_other_meet_and_none_of_one_position_do(bool isLocal, params string[] contacts)
    {
        // A contact of another piece holds nets 2 and 3 together.
        ContactWeb web = new([.. contacts.Select(text => Contact("T", text)), Contact("K", "2 3 closed")], 4, net => net < 2);
        ContactCluster cluster = web.ClusterAt(Step(web, 2))!;
        Assert.Equal(isLocal, cluster.IsLocal);
        Assert.Equal(contacts.Length + 1, cluster.Contacts.Length);
    }

    [Fact]
    public void Contacts_of_other_pieces_exclude_nothing()
    {
        ContactWeb web = new([Contact("T", "2 0 on"), Contact("U", "3 1 off"), Contact("V", "2 3 on")], 4, net => net < 2);
        ContactCluster cluster = web.ClusterAt(Step(web, 2))!;
        Assert.True(cluster.IsLocal);
        Assert.Equal([0, 1], cluster.FedNets);
    }

    /// <summary>A step into a net.</summary>
    private static int Step(ContactWeb web, int net) => Enumerable.Range(0, 2 * web.Contacts.Length).First(step => web.Head(step) == net);

    private static NetContact Contact(string piece, string text)
    {
        string[] parts = text.Split(' ');
        return new(parts[0][0] - '0', parts[1][0] - '0', new PieceId(piece), parts[2], null!);
    }
}
